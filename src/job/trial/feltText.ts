import { spokenWord } from '../inspection/feltWord.ts';
import type { Meeting } from '../inspection/meetings.ts';
import type { TrialRecord } from '../trialSchema.ts';

/** "post in socket, width tight; bar in slot right"; empty where nothing was tried. */
export const feltText = (
  { felt = {} }: Pick<TrialRecord, 'felt'>,
  meetings: readonly (Pick<Meeting, 'id' | 'name'> & { readonly one: Pick<Meeting['one'], 'kind'> })[],
): string =>
  Object.entries(felt)
    .map(([id, word]) => {
      const meeting = meetings.find((each) => each.id === id);
      return meeting === undefined
        ? `${id} ${word}`
        : `${meeting.name} ${spokenWord(word, meeting.one.kind)}`;
    })
    .join('; ');
