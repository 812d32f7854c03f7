import { linesOf } from '../page/lines.ts';

const KEPT = 'liftside-class-device';
const AGAIN_MS = 1000;
/** A link that has said nothing for so long is gone, ms: the server says something every ten seconds. */
const SILENT_MS = 25_000;

let device = '';

/** What the browser keeps for this address and page; nothing where it keeps nothing. */
function kept(): string {
  try {
    return localStorage.getItem(KEPT + location.pathname) ?? '';
  } catch {
    return '';
  }
}

/**
 * Lets this device in by the code behind `#`, or as the one that was let in before.
 *
 * @returns in words why it is not let in
 */
export async function letIn(): Promise<string | undefined> {
  const token = location.hash.slice(1);
  device = kept();
  if (token === '') return device === '' ? 'Scan the code on the screen of who leads the class.' : undefined;
  history.replaceState(null, '', location.pathname);
  try {
    const answer = await fetch('/pair/', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ token }),
    });
    const { phone, problem } = (await answer.json()) as { phone?: string; problem?: string };
    if (phone === undefined) return device === '' ? `Not connected: ${problem}. Ask for a new code.` : undefined;
    device = phone;
    localStorage.setItem(KEPT + location.pathname, phone);
  } catch {
    // Without a store it is let in until it is closed.
    if (device === '') return 'The machine that leads the class does not answer. Load the page again.';
  }
  return undefined;
}

/** Says something, once. @returns false where it did not arrive */
export async function say(path: string, body: unknown): Promise<boolean> {
  try {
    const answer = await fetch(path, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'x-liftside-phone': device },
      body: JSON.stringify(body),
      signal: AbortSignal.timeout(3000),
    });
    return answer.ok;
  } catch {
    return false;
  }
}

/** Hands over what is shown, as it changes, for ever; connects again when the link was lost. */
export async function follow<T>(
  hear: (shown: T) => void,
  state: (there: boolean, refused: boolean) => void,
): Promise<never> {
  for (;;) {
    let refused = false;
    try {
      const ended = new AbortController();
      let silent = setTimeout(() => ended.abort(), SILENT_MS);
      const answer = await fetch('/now/', { headers: { 'x-liftside-phone': device }, signal: ended.signal });
      refused = answer.status === 401;
      if (!answer.ok || !answer.body) throw new TypeError('nothing to be heard');
      state(true, false);
      for await (const lines of linesOf(answer.body)) {
        clearTimeout(silent);
        silent = setTimeout(() => ended.abort(), SILENT_MS);
        for (const line of lines) hear(JSON.parse(line) as T);
      }
    } catch {
      // Said below.
    }
    state(false, refused);
    await new Promise((done) => setTimeout(done, AGAIN_MS));
  }
}
