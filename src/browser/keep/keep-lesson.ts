import '../page/within-policy.ts';
import { type Changed, type KeepList, sizeInWords, whatChanged } from '../../core/keep/index.ts';
import { dayInWords, momentInWords } from '../page/moment-words.ts';
import { Scope } from '../page/scope.ts';
import { locale, t } from '../page/words.ts';
import { Copies } from './copies.ts';
import { KeepingStopped } from './keep-pieces.ts';
import type { KeptLesson } from './kept-store.ts';

/** Keeps the lesson of this page on the device; says in a copy what has changed since. */
class KeepLesson extends HTMLElement {
  #scope = new Scope();
  #copies: Copies | undefined;
  #work: AbortController | undefined;
  #now: KeepList | undefined;

  connectedCallback(): void {
    this.#scope = new Scope();
    const copies = Copies.here(this.dataset.base);
    if (typeof copies === 'string') {
      this.#say(copies);
      return;
    }
    this.#copies = copies;
    const details = this.querySelector('details');
    if (details) this.#scope.listen(details, 'toggle', () => details.open && void this.#look(true));
    this.#press('[data-keep]', () => void this.#keep());
    this.#press('[data-stop]', () => this.#work?.abort());
    this.#press('[data-remove]', () => void this.#remove());
    this.#scope.listen(window, 'online', () => void this.#kept().then((kept) => kept && this.#look(false)));
    // Nothing is asked of the site for who keeps nothing.
    void this.#kept().then((kept) => kept && this.#look(false));
  }

  disconnectedCallback(): void {
    this.#work?.abort();
    this.#scope.end();
  }

  get #lesson(): string {
    return this.dataset.lesson ?? '';
  }

  #press(key: string, does: () => void): void {
    const button = this.querySelector(key);
    if (button) this.#scope.listen(button, 'click', does);
  }

  async #kept(): Promise<KeptLesson | undefined> {
    return this.#copies?.store.lesson(this.#lesson);
  }

  /** What holds now comes first, before anything else of a newer copy. */
  async #look(wanted: boolean): Promise<void> {
    const copies = this.#copies;
    if (!copies || this.#work) return;
    this.#now = await copies.look(this.#lesson);
    const kept = this.#now ? await copies.noteLook(this.#lesson, this.#now) : await this.#kept();
    this.#tellChanges(kept);
    if (wanted || kept) await this.#draw(kept);
  }

  async #keep(): Promise<void> {
    const copies = this.#copies;
    if (!copies || this.#work) return;
    const list = this.#now ?? (await copies.look(this.#lesson)) ?? (await this.#kept())?.next;
    if (!list) return this.#say(t('The site cannot be reached. Try again when there is a connection.'));
    this.#work = new AbortController();
    const { all } = await copies.sizes(list);
    const bar = this.querySelector('progress');
    this.#buttons({ stop: true });
    if (bar) Object.assign(bar, { hidden: false, max: all, value: 0 });
    try {
      await copies.keep(list, this.#work.signal, (bytes) => {
        if (bar) bar.value = bytes;
        this.#say(t('{size} of {all} are here.', { size: size(bytes), all: size(all) }));
      });
      this.#work = undefined;
      if (bar) bar.hidden = true;
      // What this page plays belongs to the copy that was there before.
      if (document.documentElement.dataset.kept !== undefined) location.reload();
      else await this.#draw(await this.#kept());
    } catch (error) {
      const stopped = this.#work?.signal.aborted ?? true;
      this.#work = undefined;
      if (bar) bar.hidden = true;
      await this.#draw(await this.#kept());
      if (error instanceof KeepingStopped) this.#say(`${sentence(error.message)} ${sentence(error.help)}`);
      else if (!stopped) this.#say(t('Keeping stopped. Try again: what has arrived stays.'));
    }
  }

  async #remove(): Promise<void> {
    await this.#copies?.remove(this.#lesson);
    await this.#draw(undefined);
  }

  async #draw(kept: KeptLesson | undefined): Promise<void> {
    const copies = this.#copies;
    const { list } = kept ?? {};
    const wanted = this.#now ?? kept?.next;
    if (!copies) return;
    const { missing, all } = wanted ? await copies.sizes(wanted) : { missing: 0, all: 0 };
    const key = this.querySelector('[data-keep]');
    const note = this.querySelector('[data-state]');
    if (note) note.textContent = list ? t('kept') : kept ? t('not whole yet') : '';
    if (list && (!this.#now || this.#now.edition === list.edition)) {
      this.#say(`${t('Kept with its film: it opens here without a network.')} ${lookedInWords(kept)}`);
      this.#buttons({ remove: true });
    } else if (list) {
      this.#say(
        t('Kept, as it was on {day}. The site has a newer one: {size} to fetch.', {
          day: dayInWords(list.made),
          size: size(missing),
        }),
      );
      if (key) key.textContent = t('Bring it up to date');
      this.#buttons({ keep: true, remove: true });
    } else if (!wanted) {
      this.#say(t('This page is not offered to be kept, or the site cannot be reached.'));
      this.#buttons({});
    } else {
      const part = kept ? ` ${t('{size} of it are here.', { size: size(all - missing) })}` : '';
      this.#say(`${t('The lesson with its film, values and corrections: {size}.', { size: size(all) })}${part}`);
      if (key) key.textContent = kept ? t('Go on') : t('Keep this lesson');
      this.#buttons({ keep: true, remove: kept !== undefined });
    }
  }

  /** In a copy: that it is one, when was last asked what holds, and what holds otherwise now. */
  #tellChanges(kept: KeptLesson | undefined): void {
    const { kept: made } = document.documentElement.dataset;
    document.querySelector('.kept-note')?.remove();
    if (made === undefined || !kept?.list) return;
    const changed = whatChanged(kept.list, kept.words);
    const note = document.createElement('aside');
    note.className = changed.some(({ critical }) => critical) ? 'kept-note grave' : 'kept-note';
    note.setAttribute('role', changed.length > 0 ? 'alert' : 'status');
    const first = document.createElement('p');
    first.textContent = `${t('Your copy of {day}.', { day: dayInWords(made) })} ${lookedInWords(kept)}`;
    note.append(first);
    if (changed.length > 0) {
      const title = document.createElement('p');
      const strong = document.createElement('strong');
      strong.textContent = t('This holds now, not what stands below or is said in the film:');
      title.append(strong);
      const lines = document.createElement('ul');
      lines.append(...changed.map(lineOf));
      note.append(title, lines);
    }
    document.querySelector('main h1')?.after(note);
  }

  #say(words: string): void {
    const place = this.querySelector('[data-words]');
    if (place && place.textContent !== words) place.textContent = words;
  }

  #buttons(shown: { readonly keep?: boolean; readonly stop?: boolean; readonly remove?: boolean }): void {
    for (const name of ['keep', 'stop', 'remove'] as const) {
      const button = this.querySelector<HTMLElement>(`[data-${name}]`);
      if (button) button.hidden = !shown[name];
    }
  }
}

function lineOf({ title, was, now, critical }: Changed): HTMLElement {
  const line = document.createElement('li');
  const value = document.createElement('strong');
  value.textContent = now ?? t('no value any more: ask the shop');
  line.append(`${critical ? `${t('Critical:')} ` : ''}${title}: `, value);
  if (was !== undefined) line.append(t(', not {value}', { value: was }));
  return line;
}

function lookedInWords(kept: KeptLesson | undefined): string {
  return kept ? t('Values looked up {moment}.', { moment: momentInWords(kept.looked) }) : '';
}

const size = (bytes: number) => sizeInWords(bytes, locale);

const sentence = (words: string) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;

customElements.define('keep-lesson', KeepLesson);
