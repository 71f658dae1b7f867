import { render } from 'preact';
import './look/index.css';
import { App } from './App.tsx';
import { DrawerProvider } from './drawer/drawer.ts';
import { keepOffline } from './start/offline.ts';
import { start } from './start/start.ts';

const drawer = await start();
render(
  <DrawerProvider value={drawer}>
    <App bench={drawer.bench} />
  </DrawerProvider>,
  document.getElementById('page')!,
);
// The first look has the line to itself.
if (import.meta.env.PROD) void keepOffline();
