export type { SheetInput } from './sheetInput.ts';
export { sheetPage } from './sheetPage.ts';
