import { existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';

const { dependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as {
  readonly dependencies: Readonly<Record<string, string>>;
};

/** Of a folder of declarations, removes the files that the entry does not reach: they are internal. Gives how many are left.
 *  Throws where one that is reached needs a package that is not installed with this one. */
export function keepReached(folder: string, entry: string): number {
  const reached = new Set<string>();
  const walk = (path: string): void => {
    if (reached.has(path)) return;
    reached.add(path);
    for (const [, name = ''] of readFileSync(path, 'utf8').matchAll(
      /(?:\bfrom|\bimport\(|^import)\s*['"]([^'"\n]+)['"]/gm,
    ))
      if (name.startsWith('.')) walk(declarationOf(resolve(dirname(path), name)));
      else if (!Object.hasOwn(dependencies, packageOf(name)))
        throw new Error(`types need packages that are installed (${path} imports ${name})`);
  };
  walk(resolve(folder, entry));
  for (const path of filesIn(folder)) if (!reached.has(path)) rmSync(path);
  return reached.size;
}

function declarationOf(path: string): string {
  const found = path.replace(/\.(ts|js)$/, '.d.ts');
  if (existsSync(found)) return found;
  throw new Error(`types must be there (${found})`);
}

/** Name of a package without the path in it. */
const packageOf = (name: string): string =>
  name
    .split('/')
    .slice(0, name.startsWith('@') ? 2 : 1)
    .join('/');

const filesIn = (folder: string): string[] =>
  (readdirSync(folder, { recursive: true }) as string[])
    .map((name) => resolve(join(folder, name)))
    .filter((path) => statSync(path).isFile());
