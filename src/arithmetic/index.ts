import { sameEverywhere } from './sameEverywhere.ts';

// For the first line of a composition root: done before any other module is run.
sameEverywhere();
