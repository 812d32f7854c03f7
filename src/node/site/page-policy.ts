import { createHash } from 'node:crypto';

/** The one script that stands in a page itself: it marks, before anything is drawn, that scripts run. */
export const SCRIPTS_RUN = "document.documentElement.classList.add('js');";

/**
 * The Content Security Policy of a page of the built site (W3C, CSP Level 3), for its meta element: nothing from other
 * sites is loaded, asked or sent to, and of what stands in the page itself only what is named here runs or styles.
 * So whatever slipped through the reader of lessons would be dead letters.
 */
export function pagePolicy(): string {
  return policy({
    'script-src': ["'self'", policyHash(SCRIPTS_RUN)],
    'style-src': ["'self'"],
    'connect-src': ["'self'"],
  });
}

/**
 * A page whose policy also lets the `<style>` elements of its head style. What comes from lessons stands in the body,
 * where a style that slipped through stays dead.
 */
export function allowStylesOfHead(html: string): string {
  const end = html.indexOf('</head>');
  const head = html.slice(0, end);
  const hashes = [...head.matchAll(/<style>(.*?)<\/style>/gs)].map(([, text = '']) => policyHash(text));
  return head.replace("style-src 'self'", () => ["style-src 'self'", ...new Set(hashes)].join(' ')) + html.slice(end);
}

/**
 * The same for the local site, as a header: its builder puts style sheets into the page itself, and tells the page
 * through a web socket what has changed.
 *
 * @param host with port, as the page was asked for
 */
export function localPolicy(host: string): string {
  return policy({
    'script-src': ["'self'", policyHash(SCRIPTS_RUN), "'wasm-unsafe-eval'"],
    'style-src': ["'self'", "'unsafe-inline'"],
    'connect-src': ["'self'", `ws://${host}`],
    'frame-ancestors': ["'none'"],
  });
}

/**
 * The same for the pages of a class day in a package: the solver is a program for the web, in a worker that the page
 * makes of a text it brings.
 */
export function packedDayPolicy(): string {
  return policy({
    'script-src': ["'self'", "'wasm-unsafe-eval'"],
    'style-src': ["'self'"],
    'worker-src': ['blob:'],
    'connect-src': ["'self'"],
  });
}

/** Sent with every page by the server of the built site: what a meta element cannot say. */
export const SITE_HEADERS = new Headers({
  'content-security-policy': "frame-ancestors 'none'",
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'same-origin',
});

function policy(more: Readonly<Record<string, readonly string[]>>): string {
  const directives = {
    'default-src': ["'none'"],
    'img-src': ["'self'", 'data:'],
    // The player's signs are a font within its style sheet.
    'font-src': ["'self'", 'data:'],
    'media-src': ["'self'"],
    'worker-src': ["'self'"],
    'manifest-src': ["'self'"],
    'form-action': ["'self'"],
    'base-uri': ["'none'"],
    ...more,
  };
  return Object.entries(directives)
    .map(([name, sources]) => `${name} ${sources.join(' ')}`)
    .join('; ');
}

/** A script or style that stands in the page itself, as a policy names it. */
export function policyHash(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}
