export { clearanceWindow } from './clearanceWindow.ts';
export { columns } from './columns.ts';
export { day } from './day.ts';
export { duration } from './duration.ts';
export { measured, sideOf, significant, withUnit } from './measured.ts';
export { percent } from './percent.ts';
export { sentence } from './sentence.ts';
export { wrapped } from './wrapped.ts';
