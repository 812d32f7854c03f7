import '../page/within-policy.ts';
import { bytesOf, piecesOf, sizeInWords } from '../../core/keep/index.ts';
import { momentInWords } from '../page/moment-words.ts';
import { Scope } from '../page/scope.ts';
import { locale, plural, t } from '../page/words.ts';
import { Copies } from './copies.ts';
import type { KeptLesson } from './kept-store.ts';

/** Everything that is kept in this browser: to open, to see how old it is, to remove. */
class KeptLessons extends HTMLElement {
  #scope = new Scope();

  connectedCallback(): void {
    this.#scope = new Scope();
    const copies = Copies.here(this.dataset.base);
    if (typeof copies === 'string') {
      this.#say(copies);
      return;
    }
    this.#scope.listen(this, 'click', ({ target }) => {
      const lesson = target instanceof HTMLElement ? target.dataset.remove : undefined;
      if (lesson !== undefined) void copies.remove(lesson).then(() => this.#draw(copies));
    });
    void this.#lookAll(copies);
    // Reached in place of another page: there is no network, and that page is not kept.
    const elsewhere = !location.pathname.endsWith('/kept/');
    const away = this.querySelector<HTMLElement>('[data-away]');
    if (away) away.hidden = !elsewhere;
    const search = this.querySelector<HTMLElement>('[data-search]');
    if (search) search.hidden = !/\/steps\/(?:[^/]+\/)?$/.test(location.pathname);
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  /** What is kept at once, then what the site says of it now. */
  async #lookAll(copies: Copies): Promise<void> {
    await this.#draw(copies);
    for (const { list, next } of await copies.store.lessons()) {
      const lesson = (list ?? next)?.lesson;
      const now = lesson === undefined ? undefined : await copies.look(lesson);
      if (lesson !== undefined && now) await copies.noteLook(lesson, now);
    }
    await this.#draw(copies);
  }

  async #draw(copies: Copies): Promise<void> {
    const all = await copies.store.lessons();
    const lists = all.flatMap(({ list, next }) => [list ?? [], next ?? []].flat());
    this.#say(
      all.length === 0
        ? t('Nothing is kept yet. Open a lesson, and “Keep on this device” below it.')
        : plural(
            all.length,
            'One lesson is kept, {size} in this browser and nowhere else.',
            '{n} lessons are kept, {size} in this browser and nowhere else.',
            { size: sizeInWords(bytesOf(piecesOf(lists).values()), locale) },
          ),
    );
    this.querySelector('ul')?.replaceChildren(...all.map((kept) => this.#line(kept)));
  }

  #line(kept: KeptLesson): HTMLElement {
    const line = document.createElement('li');
    const { list, next, looked } = kept;
    const shown = list ?? next;
    if (!shown) return line;
    const link = document.createElement('a');
    link.href = `${this.dataset.base}lessons/${shown.lesson}/`;
    link.textContent = shown.title;
    const words = document.createElement('p');
    words.className = 'quiet';
    const size = sizeInWords(bytesOf(piecesOf([shown]).values()), locale);
    words.textContent = `${list ? `${size}.` : t('{size}, not whole yet.', { size })} ${t('Values looked up {moment}.', { moment: momentInWords(looked) })}`;
    const remove = document.createElement('button');
    remove.type = 'button';
    remove.className = 'key';
    remove.dataset.remove = shown.lesson;
    remove.setAttribute('aria-label', t('Remove {title}', { title: shown.title }));
    remove.textContent = t('Remove');
    line.append(link, words, remove);
    return line;
  }

  #say(words: string): void {
    const place = this.querySelector('[data-words]');
    if (place) place.textContent = words;
  }
}

customElements.define('kept-lessons', KeptLessons);
