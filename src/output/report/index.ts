export type { ReportChange, ReportInput } from './reportInput.ts';
export { reportPage } from './reportPage.ts';
