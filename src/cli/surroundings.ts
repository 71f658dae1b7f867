import type { Family } from '../family/family.ts';

/** What a command needs of the world, handed in by the composition root so that no command knows a particular part. */
export interface Surroundings {
  /** The list of part families; loading it is put off until a command needs it. */
  readonly families: () => Promise<readonly Family[]>;
  /** Module that makes a job on a thread of its own; it knows the families itself. */
  readonly worker: URL;
}
