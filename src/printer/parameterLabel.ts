import type { Parameter } from './types.ts';

/** The parameters of a printer in the words of a bench. */
export const parameterLabel: Readonly<Record<Parameter, string>> = {
  'scale.x': 'printer, scale along x',
  'scale.y': 'printer, scale along y',
  'scale.z': 'printer, scale along z',
  outerGrowth: 'printer, growth of outer faces',
  boreShrink: 'printer, shrink of bores and slots',
  boreCurvature: 'printer, extra shrink of small bores',
  firstLayerSpread: 'printer, spread of the first layer',
  firstLayerError: 'printer, height of the first layer',
  levelSag: 'printer, sag of level roofs',
  skew: 'printer, skew',
};
