import type { BrowserContext } from '@playwright/test';

/** What a page's Content Security Policy forbade, as the browser tells it (W3C, CSP Level 3, 5: reporting). */
export interface Forbidden {
  readonly page: string;
  readonly directive: string;
  readonly what: string;
}

/** Hears of everything that a policy forbids on any page of a context from now on, workers aside. */
export async function watchPolicy(context: BrowserContext): Promise<readonly Forbidden[]> {
  const forbidden: Forbidden[] = [];
  await context.exposeBinding('policyForbade', (_source, told: Forbidden) => void forbidden.push(told));
  await context.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) => {
      const { policyForbade } = globalThis as unknown as { policyForbade(told: Forbidden): void };
      policyForbade({
        page: location.pathname,
        directive: event.effectiveDirective,
        what: `${event.blockedURI} ${event.sourceFile}:${event.lineNumber} ${event.sample}`,
      });
    });
  });
  return forbidden;
}
