import { type Bench, dimensionRead, type Reading, valuesRead, valueTyped } from '../../job/takenReading.ts';
import { unitOf } from '../../measure/index.ts';
import type { Remark } from '../../measure/types.ts';
import { formatNumber } from '../../units/index.ts';
import { type Looks, wrapped } from '../terminal.ts';
import type { Asker } from './askLines.ts';
import type { JobStore } from './jobStore.ts';
import { explanation, jawsFor, type Word, wordIn } from './words.ts';

export interface SessionOptions {
  /** Take every reading anew, beside those there are. */
  readonly again: boolean;
  /** Name the size its maker is likely to have meant; so unless told. Off for a print, whose maker is the printer. */
  readonly nominals?: boolean;
  readonly bench: Bench;
  readonly looks: Looks;
  readonly asker: Pick<Asker, 'ask'>;
  readonly store: JobStore;
  readonly say: (line: string) => void;
  /** Calls to somebody who looks at the machine and not at the screen: a line was refused or is doubtful. */
  readonly ring: () => void;
}

/** Indent of everything said about a reading, beneath its name. */
const INDENT = '      ';

/** Takes the readings in order until each has as many as its sheet asks for, the lines end, or somebody quits.
 *  Every number is stored before the next is asked for. A set that is complete makes way for the next one by itself,
 *  so a calliper that types numbers and Enter needs no other key. Gives the readings as they then are. */
export async function measureSession(
  readings: readonly Reading[],
  options: SessionOptions,
): Promise<readonly Reading[]> {
  const now = [...readings];
  const complete = (k: number) => !options.again && now[k]!.texts.length >= now[k]!.spec.times;
  const firstOpen = (from: number): number => {
    let k = from;
    while (k < now.length && complete(k)) k++;
    return k;
  };

  let k = firstOpen(0);
  if (k < now.length) for (const line of wrapped(explanation, options.looks.width)) options.say(line);
  let revisited = false;
  while (k < now.length) {
    const turn = new Turn(now[k]!, k, now.length, revisited, options);
    const leave = await turn.take();
    now[k] = turn.reading;
    if (leave === 'quit') break;
    revisited = leave === 'back';
    k = leave === 'back' ? Math.max(0, k - 1) : firstOpen(k + 1);
  }
  return now;
}

/** One reading's turn at the bench. */
class Turn {
  reading: Reading;
  readonly #place: string;
  readonly #options: SessionOptions;
  /** Readings after which the turn is over. */
  #goal: number;
  /** Remarks already made; the same doubt is not raised after every number. */
  readonly #told = new Set<string>();

  constructor(reading: Reading, index: number, of: number, revisited: boolean, options: SessionOptions) {
    this.reading = reading;
    this.#place = `${index + 1} of ${of}`;
    this.#options = options;
    const { texts, spec } = reading;
    const more = options.again ? spec.times : revisited ? 1 : 0;
    // A value that no callipers read is there once.
    this.#goal = spec.jaw === 'entered' ? 1 : Math.max(spec.times, texts.length + more);
  }

  /** Asks until the set is complete or a word ends the turn. */
  async take(): Promise<'next' | 'back' | 'quit'> {
    this.#introduce();
    while (this.reading.texts.length < this.#goal) {
      const line = await this.#options.asker.ask(this.#prompt());
      if (line === null) return 'quit';
      const typed = wordIn(line);
      if (typed === undefined) await this.#number(line.trim());
      else if (typed.word === 'drop') await this.#drop(typed.which ?? this.reading.texts.length);
      else return leaving[typed.word];
    }
    return 'next';
  }

  #introduce(): void {
    const { looks, bench, say } = this.#options;
    const { spec, texts } = this.reading;
    const range = `${formatRange(spec.from)} to ${formatRange(spec.to)} ${unitOf(spec)}`;
    say('');
    say(
      `${looks.paint.dim(this.#place)}  ${looks.paint.bold(spec.name.toUpperCase())}  ${jawsFor(this.reading)}, ${range}`,
    );
    for (const line of wrapped(spec.tip, looks.width - INDENT.length)) say(INDENT + line);
    if (texts.length > 0)
      say(`${INDENT}so far ${texts.join('   ')}${bench.unit === 'in' ? '   (in where no unit stands)' : ''}`);
  }

  #prompt(): string {
    const next = this.reading.texts.length + 1;
    return `${INDENT}${next} of ${this.#goal} > `;
  }

  async #number(text: string): Promise<void> {
    const { bench, store } = this.#options;
    const typed = valueTyped(this.reading, text, bench);
    if ('refused' in typed) {
      this.#object(`"${text.slice(0, 40)}" ${typed.refused}`);
      return;
    }
    await store.append(this.reading.id, text);
    this.reading = { ...this.reading, texts: [...this.reading.texts, text] };
    this.#echo(typed.value);
  }

  async #drop(which: number): Promise<void> {
    const { store, say } = this.#options;
    const { texts, id, spec } = this.reading;
    if (texts.length === 0) {
      this.#object(`nothing to take back from ${spec.name}; "back" goes to the reading before`);
      return;
    }
    const text = texts[which - 1];
    if (text === undefined) {
      this.#object(`there is no number ${which} to take back; ${spec.name} has ${texts.length}`);
      return;
    }
    await store.drop(id, which - 1, text);
    this.reading = { ...this.reading, texts: texts.filter((_, k) => k !== which - 1) };
    // What was dropped is to be read again, even where there were more than the sheet asks for.
    this.#goal = Math.max(spec.times, texts.length);
    this.#told.clear();
    say(`${INDENT}took back ${text}, ${this.reading.texts.length} left`);
  }

  /** The number in its unit, large as a terminal can; then what the set comes to. */
  #echo(number: number): void {
    const { looks, bench, say } = this.#options;
    const unit = unitOf(this.reading.spec);
    const value = looks.paint.bold(`${formatNumber(number, FINEST)} ${unit}`);
    const dimension = dimensionRead(this.reading, bench);
    if (dimension === undefined || dimension.n < 2) {
      say(`${INDENT}${looks.paint.green('=')} ${value}`);
    } else {
      const lengths = valuesRead(this.reading, bench);
      const spread = Math.max(...lengths) - Math.min(...lengths);
      const mean = `mean ${formatNumber(dimension.value, dimension.u)} +- ${formatNumber(dimension.U, dimension.u)} ${unit}`;
      say(
        `${INDENT}${looks.paint.green('=')} ${value}   ${mean}   spread ${formatNumber(spread, FINEST)} ${unit}`,
      );
    }
    for (const remark of dimension?.remarks ?? []) this.#remark(remark);
  }

  #remark(remark: Remark): void {
    // A likely nominal size is news once the set is complete, and no doubt about it.
    if (remark.kind === 'nominal') {
      if (this.#options.nominals !== false && this.reading.texts.length >= this.#goal)
        this.#options.say(INDENT + this.#options.looks.paint.dim(remark.sentence));
      return;
    }
    const key = `${remark.kind} ${remark.index ?? ''}`;
    if (this.#told.has(key)) return;
    this.#told.add(key);
    const { looks, say, ring } = this.#options;
    this.#mark(looks.paint.yellow('  /!\\ '), remark.sentence);
    if (remark.index !== undefined) {
      // A complete set makes way for the next reading, so the way back is part of putting it right.
      const back = this.reading.texts.length >= this.#goal ? 'back, then ' : '';
      say(INDENT + looks.paint.dim(`if it was a slip: ${back}drop ${remark.index + 1}`));
    }
    ring();
  }

  #object(sentence: string): void {
    this.#mark(this.#options.looks.paint.red('   X  '), sentence);
    this.#options.ring();
  }

  #mark(mark: string, sentence: string): void {
    const { looks, say } = this.#options;
    wrapped(sentence, looks.width - INDENT.length).forEach((line, k) => {
      say((k === 0 ? mark : INDENT) + line);
    });
  }
}

const leaving: Readonly<Record<Exclude<Word, 'drop'>, 'next' | 'back' | 'quit'>> = {
  skip: 'next',
  back: 'back',
  quit: 'quit',
};

/** Stands for the step of digital callipers, 0.01 mm, shown with one digit to spare: 3/64 in is 1.191 mm. */
const FINEST = 0.005;

const formatRange = (number: number): string => String(Number(number.toFixed(3)));
