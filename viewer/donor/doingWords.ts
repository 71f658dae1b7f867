import type { ModelDoing } from './modelsHere.ts';

/** What is being done with a model, in words.
 *  @example doingWords('foot.stl', { share: 0.6, seeks: 'features' }) // => 'Looking for bores and posts on foot.stl ...' */
export function doingWords(name: string, doing: ModelDoing | null): string {
  if (doing === null) return `Looking at ${name} ...`;
  if (doing.seeks === undefined) return `Reading ${name} ...`;
  return doing.seeks === 'stretches'
    ? `Looking where ${name} can become longer or shorter ...`
    : `Looking for bores and posts on ${name} ...`;
}
