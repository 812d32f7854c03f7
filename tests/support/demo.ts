import { resolve } from 'node:path';
import { runCommandLine, type Surroundings } from '../../src/node/cli/run-command-line.ts';

// npm run demo [-- --no-serve]: the whole job on the demo shop, by the commands anyone would use.

const home = resolve(import.meta.dirname, '../..');
const stop = new AbortController();
process.once('SIGINT', () => stop.abort());
process.once('SIGTERM', () => stop.abort());

const around: Surroundings = {
  cwd: home,
  home,
  env: process.env,
  terminal: false,
  signal: stop.signal,
  now: () => new Date(),
  input: async () => '',
  out: (text) => console.log(text.trimEnd()),
  say: (text) => console.log(text.trimEnd()),
};

const started = performance.now();
const serve = !process.argv.includes('--no-serve');
console.log('Millrace Community Garage, an invented shop. The same steps make a site of your own content.');

await step('Check what is written', 'check');
await step('Fit the class into its two hours', 'fit', 'chain-saturday');
await step('Build the site', 'build', '--to', 'dist', '--footage', 'uncut');
console.log(`\nAll of it took ${seconds(started)}.`);
if (serve) {
  console.log('\nOpen this address in a browser; Ctrl-C ends the demo.');
  const { serveSite } = await import('../../src/node/site/index.ts');
  const served = await serveSite({ dir: resolve(home, 'dist') });
  console.log(served.address);
  await new Promise((done) => stop.signal.addEventListener('abort', done, { once: true }));
  await served.close();
}

/** Runs one command and says how long it took; ends the demo where it fails. */
async function step(what: string, ...words: readonly string[]): Promise<void> {
  console.log(`\n── ${what}: npx liftside ${words.join(' ')}`);
  const from = performance.now();
  const code = await runCommandLine(words, around);
  if (code !== 0) {
    console.error(`the demo ends here: liftside ${words[0]} gave ${code}`);
    process.exit(code);
  }
  console.log(`   (${seconds(from)})`);
}

function seconds(from: number): string {
  return `${((performance.now() - from) / 1000).toFixed(1)} s`;
}
