import { fileURLToPath } from 'node:url';
import { isBuilt } from './isBuilt.ts';
import { pageServer } from './pageServer.ts';
import { toldPort } from './toldPort.ts';

// `npm start`: builds the page if it is not there or older than what it is made from, and serves it on this machine alone.
const at = (path: string): string => fileURLToPath(new URL(path, new URL('../../', import.meta.url)));

const port = toldPort(process.argv.slice(2));
if (typeof port === 'string') refuse(port);
else await serve(port);

async function serve(port: number): Promise<void> {
  const page = at('dist/page');
  const from = ['viewer', 'src', 'parts', 'package-lock.json'].map(at);
  if (!(await isBuilt(`${page}/index.html`, from))) {
    console.log('building the page ...');
    const { build } = await import('vite');
    await build({ configFile: at('viewer/vite.config.ts'), logLevel: 'warn' });
  }
  const server = pageServer(page);
  server.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EADDRINUSE')
      refuse(
        `port ${port} - is in use; allowed: ending what runs there, or --port with another one; ` +
          'what is kept belongs to the address, so another port has another drawer',
      );
    else if (error.code === 'EACCES') refuse(`port ${port} - is not for you; allowed: --port from 1024 up`);
    else throw error;
  });
  server.listen(port, '127.0.0.1', () => {
    console.log(`Fettle is at http://127.0.0.1:${port}/ - open it in a browser; Ctrl+C ends it`);
  });
}

function refuse(words: string): void {
  console.error(`npm start: ${words}`);
  process.exitCode = 2;
}
