export { type IsometricInput, isometricDrawing } from './isometricDrawing.ts';
export { partDrawing } from './partDrawing.ts';
export type { PartDrawingInput, Projection, RoundFound, SizeAsked, TitleFields } from './partDrawingInput.ts';
