/**
 * Lays out the steps that procedure.css leaves for later: one after another, while the browser has nothing else to do.
 * Their heights are guessed until then, so a page that was opened at one of its steps has them all at once.
 *
 * @param idle calls back when there is time; the browser's own, where it has one
 */
export function layOutSteps(root: ParentNode, hash: string, idle: (next: () => void) => void = whenIdle): void {
  const later = [...root.querySelectorAll('.step')];
  const layOut = (steps: readonly Element[]) => {
    for (const step of steps) step.classList.add('laid-out');
  };
  const next = () => {
    layOut(later.splice(0, 1));
    if (later.length > 0) idle(next);
  };
  if (hash.length > 1) layOut(later);
  else idle(next);
}

function whenIdle(next: () => void): void {
  // Not in every browser.
  if ('requestIdleCallback' in globalThis) requestIdleCallback(next);
  else setTimeout(next);
}
