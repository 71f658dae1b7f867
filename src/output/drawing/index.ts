export { chains } from './chains.ts';
export { clipContour, clipSegment } from './clip.ts';
export { fittedDashes } from './dashFit.ts';
export {
  balloonSvg,
  type DimensionGeometry,
  type DimensionLine,
  dimensionGeometry,
  dimensioning,
  dimensionMarks,
  dimensionSvg,
} from './dimensionLine.ts';
export { type SharpEdges, sharpEdges } from './edgesShown.ts';
export { type LineStyle, lineType, lineWidth } from './lineType.ts';
export { lineView } from './lineView.ts';
export { type PlacedDimension, placeDimensions, type UnplacedDimension } from './placeDimensions.ts';
export { region } from './region.ts';
export { scaleFor, scaleName, scales } from './scale.ts';
export { reachOf, segmentsCross } from './segments.ts';
export {
  decimal,
  disc,
  escapeText,
  filled,
  fontStack,
  ink,
  pathData,
  strokes,
  svgDocument,
  text,
} from './svg.ts';
export { fittedText, textWidth } from './textWidth.ts';
export {
  type Box,
  boxAround,
  grown,
  type LineView,
  project,
  type Segment,
  type View,
  type ViewName,
  viewFrom,
  viewOf,
} from './view.ts';
