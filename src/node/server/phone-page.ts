import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { ServerResponse } from 'node:http';
import { stripTypeScriptTypes } from 'node:module';
import { resolve } from 'node:path';
import { SAFE_HEADERS } from './guard.ts';

const FOLDER = resolve(import.meta.dirname, '../../browser/shoot-log');

/**
 * The phone's page: one document with everything in it, so that nothing is missing when the network goes. The script
 * is our own file with its types left out; the policy lets this script run and no other.
 */
export function phonePage(response: ServerResponse): void {
  const style = readFileSync(resolve(FOLDER, 'phone.css'), 'utf8');
  const script = plainScript(readFileSync(resolve(FOLDER, 'phone.ts'), 'utf8'));
  const hash = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
  for (const [name, header] of Object.entries(SAFE_HEADERS)) response.setHeader(name, header);
  response.setHeader(
    'content-security-policy',
    `default-src 'none'; connect-src 'self'; style-src ${hash(style)}; script-src ${hash(script)}; base-uri 'none'; form-action 'none'; frame-ancestors 'none'`,
  );
  response.writeHead(200, { 'content-type': 'text/html; charset=utf-8' });
  response.end(`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Shoot log</title>
<style>${style}</style>
</head>
<body>
<main id="shoot-log"><p>Opening the shot list.</p></main>
<script type="module">${script}</script>
</body>
</html>
`);
}

/** Node says once that leaving types out is new; that is no news for who runs this. */
function plainScript(source: string): string {
  const { emitWarning } = process;
  process.emitWarning = () => undefined;
  try {
    return stripTypeScriptTypes(source);
  } finally {
    process.emitWarning = emitWarning;
  }
}
