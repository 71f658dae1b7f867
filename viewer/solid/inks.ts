import { type Colour, colourOf, type GapInks, mix } from './gapColour.ts';

/** What the picture is drawn with, taken from the page's look. */
export interface Inks extends GapInks {
  readonly paper: Colour;
  readonly line: Colour;
  readonly faint: Colour;
  /** Surfaces of the part, and the same where gaps are coloured and the rest steps back. */
  readonly part: Colour;
  readonly plain: Colour;
  readonly cut: Colour;
  /** Stretches of a model, by turns; what leaves a trace; what somebody is at. */
  readonly bandOne: Colour;
  readonly bandTwo: Colour;
  readonly mind: Colour;
  readonly accent: Colour;
}

/** Reads the look of the page as it is now, by day or by night. */
export function inksOf(element: Element): Inks {
  const look = getComputedStyle(element);
  const read = (name: string): Colour => colourOf(look.getPropertyValue(name));
  const [paper, line, faint, accent] = [read('--paper'), read('--ink'), read('--faint'), read('--accent')];
  const night = paper[0] + paper[1] + paper[2] < line[0] + line[1] + line[2];
  return {
    paper,
    line,
    faint,
    part: mix(paper, accent, night ? 0.36 : 0.26),
    plain: mix(paper, line, night ? 0.3 : 0.24),
    cut: mix(paper, accent, night ? 0.2 : 0.1),
    ...{ bandOne: read('--band-one'), bandTwo: read('--band-two'), mind: read('--mind'), accent },
    tight: read('--tight'),
    asWanted: night ? mix(line, paper, 0.05) : mix(paper, [1, 1, 1], 0.7),
    loose: read('--loose'),
  };
}
