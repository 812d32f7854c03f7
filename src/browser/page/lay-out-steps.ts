/** Some ten milliseconds of an old phone. */
const AT_ONCE = 3;
/** Until a page at which nobody does anything has come to rest, its film's picture and its scripts loaded. */
const AT_REST = 3000;

/**
 * Lays out the steps that procedure.css leaves for later: when the reader begins to scroll, or the page has stood for a
 * while, a few at a time while the browser has nothing else to do. Each time costs a picture of the whole page, too many
 * at once the time in which a tap is answered. What is filled in at a step comes with it: browsers look at every field of
 * a page as it opens, and lay out what is round it.
 *
 * Heights are guessed until then, so all are laid out at once where a place among them is wanted: on a page opened at one,
 * before the first tap or key is answered, and before it is printed. A step tells by the event `laid-out` that it is.
 *
 * @param idle calls back when there is time; the browser's own, where it has one
 */
export function layOutSteps(
  root: Document,
  hash: string,
  view: EventTarget & Pick<Window, 'setTimeout'> = globalThis.window,
  idle: (next: () => void) => void = whenIdle,
): void {
  const later = [...root.querySelectorAll('.step')];
  const layOut = (count: number) => {
    for (const step of later.splice(0, count)) {
      step.classList.add('laid-out');
      for (const fields of step.querySelectorAll<HTMLTemplateElement>('template[data-later]'))
        fields.replaceWith(fields.content);
      step.dispatchEvent(new Event('laid-out', { bubbles: true }));
    }
  };
  const all = () => layOut(later.length);
  if (hash.length > 1) {
    all();
    return;
  }
  for (const wanted of ['click', 'keydown']) root.addEventListener(wanted, all, { capture: true, once: true });
  view.addEventListener('beforeprint', all, { once: true });
  const next = () => {
    layOut(AT_ONCE);
    if (later.length > 0) idle(next);
  };
  let begun = false;
  const begin = () => {
    if (!begun) idle(next);
    begun = true;
  };
  root.addEventListener('scroll', begin, { once: true, passive: true });
  view.setTimeout(begin, AT_REST);
}

function whenIdle(next: () => void): void {
  // Not in every browser.
  if ('requestIdleCallback' in globalThis) requestIdleCallback(next);
  else setTimeout(next);
}
