import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { buildSite, serveSite } from '../../src/node/site/index.ts';
import { copyDemo, discard } from './start-room.ts';

const home = resolve(import.meta.dirname, '../..');

/** The content that the browser tests run on: the demo's. */
export const CONTENT = resolve(home, process.env.LIFTSIDE_CONTENT ?? 'content');

/** Path that the site is built for and served under. */
export const BASE = process.env.LIFTSIDE_TEST_BASE ?? '/';

/** Builds the demo and serves it on a free port for the browser tests; they find both in the environment. */
export default async function serveDemo(): Promise<() => Promise<void>> {
  const out = await mkdtemp(join(tmpdir(), 'liftside-site-'));
  // Of a copy: whether somebody has rendered the demo changes which files its pages play.
  const content = await copyDemo(CONTENT);
  await buildSite({
    content,
    out,
    home,
    base: BASE,
    footage: 'uncut',
    env: process.env,
    now: () => new Date(),
  });
  const served = await serveSite({ dir: out, base: BASE });
  process.env.LIFTSIDE_TEST_ADDRESS = served.address;
  process.env.LIFTSIDE_TEST_SITE = out;
  return async () => {
    await served.close();
    await discard(content);
    await rm(out, { recursive: true, force: true });
  };
}
