export { formatLength, formatNumber } from './formatLength.ts';
export { type ParsedLength, parseLength } from './parseLength.ts';
export {
  type ParsedQuantity,
  type ParseOptions,
  parseQuantity,
  type RefusalCode,
  type RefusedText,
} from './parseQuantity.ts';
export { MILLIMETRES_PER_INCH, type Quantity } from './quantity.ts';
