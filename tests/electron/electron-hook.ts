import { registerHooks } from 'node:module';

const standIn = new URL('./electron-module.ts', import.meta.url).href;

/** `import 'electron'` and `require('electron')` find the stand-in, wherever they stand. */
registerHooks({
  resolve: (specifier, context, next) =>
    specifier === 'electron' ? { url: standIn, shortCircuit: true } : next(specifier, context),
});
