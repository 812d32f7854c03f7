import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createServer, request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { loadShop } from '../../src/node/files/index.ts';
import { closeServer } from '../../src/node/http/index.ts';
import { type Served, serveSite } from '../../src/node/site/index.ts';
import { writeKeepLists } from '../../src/node/site/keep-lists.ts';
import { BASE, CONTENT } from '../support/serve-demo.ts';

const built = () => process.env.LIFTSIDE_TEST_SITE ?? '';

let served: Served;
test.beforeEach(async () => {
  served = await serveSite({ dir: built(), base: BASE });
});
test.afterEach(() => served.close().catch(() => undefined));

const keepPanel = (page: Page) => page.locator('keep-lesson');
const words = (page: Page) => keepPanel(page).locator('[data-words]');

async function openPanel(page: Page): Promise<void> {
  await page.goto(`${served.address}lessons/chain/`);
  await keepPanel(page).locator('summary').click();
}

async function keepAll(page: Page): Promise<void> {
  await openPanel(page);
  await expect(words(page)).toHaveText(/^The lesson with its film, values and corrections: \d+ MB\.$/);
  await keepPanel(page).getByRole('button', { name: 'Keep this lesson' }).click();
  await expect(words(page)).toContainText('it opens here without a network');
}

/** The same site through a connection that ends at films, unless it may go on. */
async function cutOff(site: Served, goesOn: () => boolean): Promise<Served> {
  const { hostname, port } = new URL(site.address);
  const server = createServer((asked, answer) => {
    if (asked.url?.includes('/footage/media/') && !goesOn()) return asked.socket.destroy();
    const { method, url, headers } = asked;
    request({ hostname, port, method, path: url, headers, agent: false }, (got) => {
      answer.writeHead(got.statusCode ?? 502, got.headers);
      got.pipe(answer);
    }).end();
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const own = server.address();
  return {
    address: `http://127.0.0.1:${typeof own === 'object' && own ? own.port : 0}${BASE}`,
    async close() {
      await closeServer(server);
      await site.close();
    },
  };
}

const onAir = (page: Page) =>
  page.evaluate(() => {
    const video = document.querySelector<HTMLVideoElement>('video[data-on-air]');
    return { at: video?.currentTime ?? 0, ready: video?.readyState ?? 0, from: video?.currentSrc ?? '' };
  });

/** A picture of what the person sees, beside the test's results. */
const look = (page: Page, name: string) => page.screenshot({ path: test.info().outputPath(`${name}.png`) });

test('a lesson kept on the device opens and plays without a network, and says when its values were looked up @long', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await keepAll(page);
  await served.close();
  await page.goto(`${served.address}lessons/chain/`);
  await expect(page.locator('.kept-note')).toHaveText(/^Your copy of .+\d{4}\. Values looked up .+\.$/);
  await page.locator('.start').first().click();
  await expect.poll(async () => (await onAir(page)).ready).toBeGreaterThan(2);
  const { at, from } = await onAir(page);
  await expect.poll(async () => (await onAir(page)).at).toBeGreaterThan(at + 0.5);
  // A step in the other camera file, somewhere in the middle of it.
  await page.evaluate(() => {
    location.hash = '#oil-it-and-write-it-down';
  });
  await expect.poll(async () => (await onAir(page)).from).not.toBe(from);
  await expect.poll(async () => (await onAir(page)).ready).toBeGreaterThan(1);
  // What is not kept is answered by what is.
  await page.goto(`${served.address}classes/chain-saturday/`);
  await expect(page.getByRole('alert')).toContainText('No network, and that page is not kept');
  await expect(page.locator('[data-search]')).toBeHidden();
  await page.goto(`${served.address}steps/?q=axle+nut`);
  await expect(page.locator('[data-search]')).toContainText('needs the network');
  await page.getByRole('link', { name: 'Replace the chain and sprockets' }).click();
  await expect(page.locator('.kept-note')).toBeVisible();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
});

test('a network that is cut off at five moments costs what had not arrived; it goes on from there @long', async ({
  page,
}) => {
  let left = 0;
  const cut = await cutOff(served, () => left-- > 0);
  served = cut;
  await openPanel(page);
  const here = async () => Number(/(\d+) MB of it are here/.exec((await words(page).textContent()) ?? '')?.[1] ?? 0);
  let before = 0;
  for (const pieces of [0, 1, 2, 2, 1]) {
    left = pieces;
    await keepPanel(page)
      .getByRole('button', { name: /^(Keep this lesson|Go on)$/ })
      .click();
    await expect(words(page)).toContainText('The connection was lost. Go on when there is one');
    await look(page, `cut-${pieces}`);
    // Opened anew, the page knows what is here.
    await openPanel(page);
    await expect(words(page)).toContainText('of it are here');
    const now = await here();
    expect(now).toBeGreaterThanOrEqual(before + (pieces > 0 ? 1 : 0));
    before = now;
  }
  left = 1000;
  await keepPanel(page).getByRole('button', { name: 'Go on' }).click();
  await expect(words(page)).toContainText('it opens here without a network');
  // Stopped by hand and removed, nothing stays: not a copy, not the script that answers.
  await keepPanel(page).getByRole('button', { name: 'Remove it from this device' }).click();
  await expect(words(page)).toContainText('The lesson with its film');
  expect(
    await page.evaluate(async () => [await caches.keys(), (await navigator.serviceWorker.getRegistrations()).length]),
  ).toEqual([[], 0]);
});

test('where the browser has no room it says how much is missing, and goes on once there is @long', async ({ page }) => {
  await openPanel(page);
  await expect(words(page)).toContainText('The lesson with its film');
  const devtools = await page.context().newCDPSession(page);
  const { origin } = new URL(served.address);
  await devtools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 9_000_000 });
  const keep = keepPanel(page).getByRole('button', { name: /^(Keep this lesson|Go on)$/ });
  await keep.click();
  await expect(words(page)).toContainText(
    // A browser may know its room beforehand, or find out on the way.
    /^(\d+ MB are needed, and this browser has room for [\d.]+ MB|This device has no room left for it)\. Remove another/,
  );
  await look(page, 'no-room');
  await devtools.send('Storage.overrideQuotaForOrigin', { origin });
  await keep.click();
  await expect(words(page)).toContainText('it opens here without a network');
});

test('a critical value that has changed since stands over the copy; brought up to date, it is the new page @long', async ({
  page,
}) => {
  const away = await mkdtemp(join(tmpdir(), 'liftside-kept-'));
  try {
    await keepAll(page);
    // The site is built anew with another value: the same page and lists as a build makes, without the minutes it takes.
    const [site, content] = [join(away, 'site'), join(away, 'content')];
    await cp(built(), site, { recursive: true });
    await cp(CONTENT, content, { recursive: true, filter: (path) => !/\.liftside|\.mp4$/.test(path) });
    const specs = join(content, 'specs/tarn-420.yaml');
    await writeFile(specs, (await readFile(specs, 'utf8')).replace(/(id: rear-axle-nut[\s\S]*?nominal: )90/, '$1 95'));
    const file = join(site, 'lessons/chain/index.html');
    await writeFile(file, (await readFile(file, 'utf8')).replaceAll('90 ± 5', '95 ± 5'));
    const { shop } = await loadShop(content);
    await writeKeepLists({ site, base: BASE, shop, made: '2027-01-09' });
    const { port } = new URL(served.address);
    await served.close();
    served = await serveSite({ dir: site, base: BASE, port: Number(port) });

    // With a network the page is the site's own, and what holds is looked up for the copy.
    await openPanel(page);
    await expect(words(page)).toHaveText(/^Kept, as it was on .+\. The site has a newer one: \d+ kB to fetch\.$/);
    await look(page, 'newer');
    await served.close();
    await page.goto(`${served.address}lessons/chain/`);
    const note = page.locator('.kept-note');
    await expect(note).toContainText('This holds now, not what stands below');
    await expect(note.locator('li')).toHaveText(
      /^Critical: Rear axle nut.*: 95 ± 5 N·m \(70\.1 ± 3\.\d lbf·ft\), not 90 ± 5 N·m/,
    );
    await expect(page.locator('#tighten-the-axle-nut')).toContainText('90 ± 5');
    await look(page, 'old-copy-new-value');
    await keepPanel(page).locator('summary').click();
    const found = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag22aa']).analyze();
    expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);

    served = await serveSite({ dir: site, base: BASE, port: Number(port) });
    await openPanel(page);
    await keepPanel(page).getByRole('button', { name: 'Bring it up to date' }).click();
    await expect(words(page)).toContainText('it opens here without a network');
    await served.close();
    await page.goto(`${served.address}lessons/chain/`);
    await expect(note).toHaveText(/^Your copy of .*January.* 2027\. Values looked up/);
    await expect(page.locator('#tighten-the-axle-nut')).toContainText('95 ± 5');
  } finally {
    await rm(away, { recursive: true, force: true });
  }
});
