export { encodePng } from './encodePng.ts';
export { type Frame, frameOf } from './frame.ts';
export { type PictureOptions, picture, type Sitter } from './picture.ts';
