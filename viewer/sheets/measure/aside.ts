import type { ComponentChildren } from 'preact';

/** What else there is to say of a reading: what it should be, for a field that is empty; its mark, and the word for that. */
export type Aside = (id: string) => {
  readonly hint: string;
  readonly mark: ComponentChildren;
  readonly word: string;
};
