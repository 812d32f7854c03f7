import { readFile } from 'node:fs/promises';
import type { ServerResponse } from 'node:http';
import { resolve } from 'node:path';
import { rolldown } from 'rolldown';
import { ENGLISH, wording } from '../../core/locale/index.ts';
import { escapeHtml } from '../../core/pages/index.ts';
import { messagesElement, type SiteLocale } from '../site/locales.ts';
import { policyHash } from '../site/page-policy.ts';
import { SAFE_HEADERS } from './guard.ts';

const BROWSER = resolve(import.meta.dirname, '../../browser');
const FOLDER = resolve(BROWSER, 'shoot-log');

/**
 * The phone's page: one document with everything in it, so that nothing is missing when the network goes. The policy
 * lets its script run, and the one that reads pictures of codes, which comes only when it is asked for.
 */
export async function phonePage(response: ServerResponse): Promise<void> {
  await page(response, {
    title: 'Shoot log',
    style: await readFile(resolve(FOLDER, 'phone.css'), 'utf8'),
    script: await scriptOf('shoot-log/phone.ts'),
    body: '<main>\n<div id="shoot-log"><p>Opening the shot list.</p></div>\n<details id="moving"></details>\n</main>',
  });
}

/** The page of a device in a class: a helper's phone, or a screen that the room sees. */
export async function classPage(
  response: ServerResponse,
  as: 'lead' | 'room',
  locale: Pick<SiteLocale, 'tag' | 'messages' | 'forDay'>,
): Promise<void> {
  // A helper's phone speaks English, as the window of the one who leads.
  const { t } = wording(as === 'lead' ? ENGLISH : locale);
  const files = as === 'lead' ? ['class-phone/phone.css'] : ['../styles/tokens.css', 'present/present.css'];
  const styles = await Promise.all(files.map((file) => readFile(resolve(BROWSER, file), 'utf8')));
  await page(response, {
    ...(as === 'room' && { language: locale.tag, messages: messagesElement(locale.forDay) }),
    title: as === 'lead' ? 'Class day' : t('Room'),
    // Nothing is fetched from elsewhere: a device has the letters it has.
    style: styles.join('\n').replaceAll(/^@import .*$/gm, ''),
    script: await scriptOf(as === 'lead' ? 'class-phone/phone.ts' : 'present/open-far-room.tsx'),
    body: `<div id="day" class="${as === 'lead' ? 'phone' : 'room'}"><p class="opening">${t('Waiting for the class.')}</p></div>`,
  });
}

interface OnePage {
  readonly title: string;
  readonly style: string;
  readonly script: string;
  readonly body: string;
  /** BCP 47; English when left out. */
  readonly language?: string;
  /** What it hands to its script, as an element. */
  readonly messages?: string;
}

async function page(
  response: ServerResponse,
  { title, style, script, body, language = 'en', messages = '' }: OnePage,
): Promise<void> {
  response.setHeaders(SAFE_HEADERS);
  response.setHeader(
    'content-security-policy',
    [
      "default-src 'none'; connect-src 'self'; img-src blob: data:; media-src 'self'",
      `style-src ${policyHash(style)}; script-src ${policyHash(script)} 'self'`,
      "base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    ].join('; '),
  );
  response.writeHead(200, { 'content-type': 'text/html; charset=utf-8' });
  response.end(`<!doctype html>
<html lang="${escapeHtml(language)}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>${title}</title>
<style>${style}</style>
</head>
<body>
${body}
${messages}<script type="module">${script}</script>
</body>
</html>
`);
}

/** What reads codes from pictures, as a script of its own. */
export async function pictureReader(response: ServerResponse): Promise<void> {
  const script = await scriptOf('shoot-log/pictures.ts');
  response.setHeaders(SAFE_HEADERS);
  response.writeHead(200, { 'content-type': 'text/javascript; charset=utf-8' });
  response.end(script);
}

const made = new Map<string, Promise<string>>();

/** One of our files with all it imports, as one script; made once. */
function scriptOf(name: string): Promise<string> {
  let script = made.get(name);
  if (!script) {
    script = bundle(name);
    made.set(name, script);
    // Tried again with the next request.
    script.catch(() => made.delete(name));
  }
  return script;
}

async function bundle(name: string): Promise<string> {
  const work = await rolldown({
    input: resolve(BROWSER, name),
    platform: 'browser',
    logLevel: 'silent',
    transform: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  });
  try {
    const { output } = await work.generate({ format: 'es', minify: true });
    // Nothing in a string may end the element that the script stands in.
    return output[0].code.replaceAll('</script', '<\\/script');
  } finally {
    await work.close();
  }
}
