/**
 * Lays out the steps that procedure.css leaves for later: one after another, while the browser has nothing else to do.
 * Their heights are guessed until then, so all are laid out at once where a place among them is wanted: on a page opened
 * at one, and before the first tap or key is answered.
 *
 * @param idle calls back when there is time; the browser's own, where it has one
 */
export function layOutSteps(root: Document, hash: string, idle: (next: () => void) => void = whenIdle): void {
  const later = [...root.querySelectorAll('.step')];
  const layOut = (count: number) => {
    for (const step of later.splice(0, count)) step.classList.add('laid-out');
  };
  const all = () => layOut(later.length);
  if (hash.length > 1) {
    all();
    return;
  }
  for (const wanted of ['click', 'keydown']) root.addEventListener(wanted, all, { capture: true, once: true });
  const next = () => {
    layOut(1);
    if (later.length > 0) idle(next);
  };
  idle(next);
}

function whenIdle(next: () => void): void {
  // Not in every browser.
  if ('requestIdleCallback' in globalThis) requestIdleCallback(next);
  else setTimeout(next);
}
