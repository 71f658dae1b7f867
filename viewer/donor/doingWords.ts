import type { ModelDoing } from './modelsHere.ts';

/** What is being done with a model, in words.
 *  @example doingWords('foot.stl', { share: 1, seeks: 'features' }) // => 'Looking for bores and posts on foot.stl ...' */
export function doingWords(name: string, doing: ModelDoing | null): string {
  if (doing === null) return `Looking at ${name} ...`;
  if (doing.share < 1) return `Reading ${name} ...`;
  return doing.seeks === 'stretches'
    ? `Looking where ${name} can become longer or shorter ...`
    : `Looking for bores and posts on ${name} ...`;
}
