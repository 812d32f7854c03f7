import type { Scope } from '../page/scope.ts';

/**
 * Keeps a small picture in sight where the stage scrolls away with the page: on a phone held sideways, and when the
 * page is enlarged.
 */
export function keepPictureInSight(stage: HTMLElement, scope: Scope): void {
  const picture = stage.querySelector<HTMLElement>('.picture');
  if (!picture) return;
  const observer = new IntersectionObserver((entries) => {
    // Several moments may be told at once; the last is where the page stands.
    const entry = entries.at(-1);
    if (!entry) return;
    const away = !entry.isIntersecting && entry.boundingClientRect.bottom <= 0;
    if (away) stage.style.minHeight = `${entry.boundingClientRect.height}px`;
    else stage.style.removeProperty('min-height');
    picture.classList.toggle('apart', away);
  });
  observer.observe(stage);
  scope.onEnd(() => observer.disconnect());
}
