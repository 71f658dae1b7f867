import { doingWords } from './doingWords.ts';
import { modelDoing } from './modelsHere.ts';
import './strips.css';

/** What is being done with a model, and how far that is. */
export function ModelDoingLine({ name }: { readonly name: string }) {
  const doing = modelDoing.value;
  return (
    <>
      <p>{doingWords(name, doing)}</p>
      {doing && doing.share < 1 && (
        <progress class="reading-model" aria-label="read and looked at" max={1} value={doing.share} />
      )}
    </>
  );
}
