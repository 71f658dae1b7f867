import { randomBytes } from 'node:crypto';
import { type ProcessMark, thisProcess } from './processMark.ts';

/** What lies in a folder only while files are written there, and after a process that was killed in the middle:
 *  - `part`, a file before it takes its name; `old`, what is to be put back should that fail
 *  - `plan`, the names still to be taken, before it counts; `commit`, the same once it does
 *  - `see`, in the other folders of the same writing: where the plan lies */
export type TraceKind = 'part' | 'old' | 'plan' | 'commit' | 'see';

/** One such file. Its name is short whatever it will be called, so that long names can be written too. */
export interface Trace {
  readonly name: string;
  /** Of one writing by one process. */
  readonly id: string;
  readonly kind: TraceKind;
  readonly by: ProcessMark;
}

const BEGIN = '.fettle-';
const NAME =
  /^\.fettle-(([0-9a-f]{8})-(\d{1,10})-(\d{1,20})-[0-9a-f]{8})\.(?:\d+\.(part|old)|(plan|commit|see))$/;

/** An id for one writing of this process. */
export const newId = (): string => {
  const { host, pid, start } = thisProcess;
  return `${host}-${pid}-${start}-${randomBytes(4).toString('hex')}`;
};

/** Name of one trace of a writing; `index` tells parts and old files apart. */
export const traceName = (id: string, kind: TraceKind, index?: number): string =>
  `${BEGIN}${id}.${index === undefined ? '' : `${index}.`}${kind}`;

/** What a name says; undefined for every name that is none of Fettle's own making. */
export function traceOf(name: string): Trace | undefined {
  const [, id, host, pid, start, numbered, plain] = NAME.exec(name) ?? [];
  if (id === undefined) return undefined;
  const by = { host: host!, pid: Number(pid), start: start! };
  return { name, id, kind: (numbered ?? plain) as TraceKind, by };
}

/** Whether a file may be one that only writing leaves: worth a closer look. */
export const mayBeTrace = (name: string): boolean => name.startsWith(BEGIN);

/** The lock of a folder, and what holds it while a dead one is taken away. */
export const LOCK = `${BEGIN}lock`;
export const CLAIM = /^\.fettle-\d+-\d+\.claim$/;
export const claimName = (ino: bigint, mtimeMs: bigint): string => `${BEGIN}${ino}-${mtimeMs}.claim`;
