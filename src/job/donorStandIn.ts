import { family } from '../family/family.ts';
import { up } from '../solid/placement.ts';

/** Stands for every donor while the rest of a job is read; nothing is made of it. */
export const donorStandIn = family({
  ...{ id: 'donor', title: 'Refit of a donor', version: 1, summary: '' },
  ...{ readings: {}, choices: {}, sizes: {}, normalSizes: () => ({}), callouts: () => ({}) },
  features: () => [],
  lay: () => ({ name: 'as modelled', turn: up.z }),
});
