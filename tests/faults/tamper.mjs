// Loaded into the built command before it runs (NODE_OPTIONS=--import): counts what it does to the disk below a folder, step by
// step, writes that down, and at one of the steps kills the process as a power switch would, or fails as the system would.
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { constants } from 'node:os';
import { basename, resolve, sep } from 'node:path';
import { isMainThread } from 'node:worker_threads';

const { below, log, at = 0, act, code, ever = false } = JSON.parse(process.env.FETTLE_TAMPER ?? '{}');
const plain = { ...fs, promises: { ...fs.promises } };
const born = performance.timeOrigin;
const files = new Map();
let step = 0;

const inside = (path) => typeof path === 'string' && resolve(path).startsWith(below + sep);

/** Whether this step is the one. */
function reached(what, name) {
  step++;
  if (log) plain.appendFileSync(log, `${step} ${Math.round(Date.now() - born)} ${what} ${basename(name)}\n`);
  // What takes room goes on failing, as on a disk that stays full.
  return step === at || (ever && step > at && at > 0 && /^(open|write|mkdir|link)/.test(what));
}

function failing(what, path) {
  const error = new Error(`${code}: made to fail, ${what} '${path}'`);
  return Object.assign(error, { code, errno: -constants.errno[code], syscall: what, path });
}

function die() {
  process.kill(process.pid, act);
}

/** What happens at the step that was reached: death or failure; nothing where `act` is none. */
function strike(what, path) {
  if (act === 'fail') throw failing(what, path);
  if (act) die();
}

function watched(what, pathOf = (args) => args[0]) {
  const work = plain[what];
  fs[what] = (...args) => {
    const path = pathOf(args);
    if (inside(path) && reached(what, path)) strike(what, path);
    return work(...args);
  };
}

if (isMainThread && below) {
  for (const what of ['renameSync', 'linkSync', 'unlinkSync', 'chmodSync', 'chownSync']) watched(what);
  fs.openSync = (path, flags, ...rest) => {
    const writes = inside(path) && /[wax+]/.test(String(flags ?? 'r'));
    if (writes && reached('openSync', path)) strike('openSync', path);
    const file = plain.openSync(path, flags, ...rest);
    if (inside(path)) files.set(file, path);
    return file;
  };
  fs.closeSync = (file) => {
    files.delete(file);
    return plain.closeSync(file);
  };
  fs.fsyncSync = (file) => {
    if (files.has(file) && reached('fsyncSync', files.get(file))) strike('fsyncSync', files.get(file));
    return plain.fsyncSync(file);
  };
  fs.writeSync = (file, what, ...rest) => {
    if (files.has(file) && reached('writeSync', files.get(file))) {
      // Half of it is on the disk when the current fails, or the room ends; after any other signal it goes on with the whole.
      if ((act === 'SIGKILL' || act === 'fail') && typeof what !== 'string')
        plain.writeSync(file, what, 0, what.length >> 1);
      strike('writeSync', files.get(file));
    }
    return plain.writeSync(file, what, ...rest);
  };
  for (const what of ['mkdir', 'rmdir']) {
    fs.promises[what] = async (path, ...rest) => {
      if (inside(path) && reached(what, path)) strike(what, path);
      return plain.promises[what](path, ...rest);
    };
  }
  syncBuiltinESMExports();
}
