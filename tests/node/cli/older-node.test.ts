import { execa } from 'execa';
import { expect, test } from 'vitest';

// Made to look like Node 20, whose node:module has neither hooks nor a cache to ask for.
const OLDER = `
import { registerHooks } from 'node:module';
registerHooks({
  resolve: (name, context, next) =>
    name === 'node:module' ? { url: 'data:text/javascript,export const createRequire = 1', shortCircuit: true } : next(name, context),
});
Object.defineProperty(process.versions, 'node', { value: '20.20.2' });
`;

test('an older Node is told so in words, before anything it lacks is asked for', async () => {
  const older = `data:text/javascript,${encodeURIComponent(OLDER)}`;
  const { exitCode, stderr } = await execa(
    process.execPath,
    ['--import', older, 'src/node/cli/liftside.mjs', 'check'],
    { reject: false },
  );
  expect(stderr).toMatch(/^Liftside runs on Node 24 or newer; this is v\d+\.\d+\.\d+\. Get one from nodejs\.org/);
  expect(stderr).not.toMatch(/\n\s+at /);
  expect(exitCode).toBe(3);
});
