#!/usr/bin/env -S node --disable-warning=ExperimentalWarning --max-semi-space-size=32
// How the program starts. New objects have 32 MB, for which Node has to be asked before it starts: of a thousand lessons
// most die there, where clearing them away costs least. Its files are TypeScript, whose types Node 24 strips as it reads
// them; only not below node_modules, where they lie once Liftside is installed as a package. There it is asked to strip
// them as well.
import { readFileSync } from 'node:fs';
// As a whole: an older Node has not all of it, and is to be told so in words.
import * as modules from 'node:module';
import { fileURLToPath } from 'node:url';

if (Number.parseInt(process.versions.node, 10) < 24) {
  console.error(
    `Liftside runs on Node 24 or newer; this is ${process.version}. Get one from nodejs.org and try again.`,
  );
  process.exit(3);
}
const { enableCompileCache, registerHooks, stripTypeScriptTypes } = modules;
const home = new URL('../../../', import.meta.url).href;
if (home.includes('/node_modules/'))
  registerHooks({
    load(url, context, nextLoad) {
      const own = url.startsWith(home) && !url.slice(home.length).includes('node_modules/');
      if (!own || !/\.ts$/.test(new URL(url).pathname)) return nextLoad(url, context);
      const path = fileURLToPath(url);
      const source = stripTypeScriptTypes(readFileSync(path, 'utf8'), { sourceUrl: url });
      return { format: 'module', source, shortCircuit: true };
    },
  });
// Types are stripped and code compiled once, not at every start. This file is JavaScript, so that not even the
// stripping itself has to be loaded where all is kept.
enableCompileCache();
const { findOneFile, HOME, IN_ONE_FILE } = await import('./one-file.ts');
const isInOneFile = IN_ONE_FILE.includes(process.argv[2] ?? '');
const oneFile = isInOneFile ? findOneFile(HOME) : undefined;
await import(oneFile ?? './main.ts');
// All has been told by now; whoever has ended what was served waits for nothing more.
if (isInOneFile && oneFile === undefined && !process.argv.includes('--serve')) {
  const { makeOneFile } = await import('./make-one-file.ts');
  await makeOneFile(Date.now());
}
