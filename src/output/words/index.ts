export { clearanceWindow } from './clearanceWindow.ts';
export { columns } from './columns.ts';
export { day } from './day.ts';
export { type Measured, measured, sideOf, significant, withUnit } from './measured.ts';
export { percent } from './percent.ts';
export { wrapped } from './wrapped.ts';
