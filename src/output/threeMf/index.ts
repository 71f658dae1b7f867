export { threeMf } from './threeMf.ts';
export type { ThreeMfInput, ThreeMfItem, ThreeMfObject } from './threeMfInput.ts';
