/** Names of the formats, with what each is, apart from their schemas so that help need not load those. */
export const formatNames = {
  job: 'job file',
  printer: 'printer profile',
  result: 'what make, check and refit print, and what lies beside the STL',
  batch: 'what make prints of several jobs',
  plate: 'what plate prints, and what lies beside the plate',
  bundle: 'list in a bundle of what is in it',
  packed: 'what bundle prints',
  opened: 'what open prints',
  coupon: 'what coupon prints',
  calibration: 'what calibrate prints',
  ladder: 'what ladder prints of a strip it drew',
  verdict: 'what ladder prints of how it felt',
  inspection: 'what inspect prints',
  trial: 'what trial prints',
  history: 'what trial --history prints',
  undone: 'what trial --undo prints',
  donor: 'what donor prints',
  screw: 'what screw prints',
  families: 'what families prints',
} as const;

/** Name of a form of JSON that there is a schema of. */
export type FormatName = keyof typeof formatNames;
