import './schema.ts';
import { english, inFigures } from '../../core/locale/index.ts';
import { Scope } from '../page/scope.ts';
import { today } from '../page/today.ts';
import { locale, plural, t } from '../page/words.ts';
import { closeJob, isWritten, ticked, withoutJob } from './jobs.ts';
import type { Job, JobStep, Reading, ServiceRecord } from './schema.ts';
import { RecordStore } from './store.ts';
import { mergeRecords, readRecordFile, recordFile } from './transfer.ts';

const VERDICTS = {
  in: english('in limits'),
  near: english('in limits, but only just'),
  out: english('OUT OF LIMITS'),
} as const;

/** The service record of this browser: its jobs, each to be printed, closed or deleted; saved and taken in as one file. */
export class ServiceRecordPage extends HTMLElement {
  #scope = new Scope();
  readonly #store = new RecordStore();

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#draw();
    this.#scope.listen(window, 'storage', () => this.#draw());
    this.#scope.listen(this, 'click', ({ target }) => {
      if (target instanceof Element) this.#clicked(target);
    });
    this.#scope.listen(this, 'change', ({ target }) => {
      if (target instanceof HTMLInputElement && target.files?.[0]) this.#takeIn(target, target.files[0]);
    });
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  #draw(): void {
    const record = this.#store.read();
    const jobs = record.jobs.toSorted((a, b) => (a.changed < b.changed ? 1 : -1));
    const none = this.querySelector<HTMLElement>('[data-no-job]');
    if (none) none.hidden = jobs.length > 0;
    this.querySelector('[data-jobs]')?.replaceChildren(...jobs.map((job) => this.#article(job)));
    this.#drawIntervals(record);
  }

  #article(job: Job): Node {
    const template = this.querySelector<HTMLTemplateElement>('template[data-job]');
    const article = document.importNode(template?.content ?? document.createDocumentFragment(), true);
    const root = article.querySelector<HTMLElement>('.job');
    if (root) root.dataset.id = job.id;
    const put = (selector: string, text: string) => {
      const element = article.querySelector(selector);
      if (element) element.textContent = text;
    };
    const { done, of } = ticked(job);
    put('[data-title]', t('Service record: {title}', { title: job.title }));
    put(
      '[data-state]',
      [
        job.shop,
        t('{done} of {of} steps ticked', { done, of }),
        ...(job.closed === undefined ? [] : [t('closed on {day}', { day: job.closed })]),
      ].join(' · '),
    );
    put('[data-machine-words]', job.machine);
    put(
      '[data-date]',
      job.closed ??
        (job.steps
          .flatMap(({ done = '' }) => done)
          .toSorted()
          .at(-1) ||
          job.begun),
    );
    put('[data-distance]', job.odometer === undefined ? '' : `${job.odometer} ${job.distanceUnit}`);
    put('[data-done-by]', job.doneBy ?? '');
    put('[data-checked-by]', job.checkedBy ?? '');
    const note = article.querySelector<HTMLElement>('[data-job-note]');
    if (note) {
      note.hidden = job.note === undefined;
      note.textContent = job.note ?? '';
    }
    article.querySelector('tbody')?.replaceChildren(...job.steps.map(stepRow));
    const close = article.querySelector<HTMLElement>('[data-close]');
    if (close) close.hidden = job.closed !== undefined;
    return article;
  }

  #drawIntervals({ intervals }: ServiceRecord): void {
    const section = this.querySelector<HTMLElement>('[data-intervals]');
    if (!section) return;
    section.hidden = intervals.length === 0;
    section.querySelector('ul')?.replaceChildren(
      ...intervals.map(({ title, day, odometer }) => {
        const last = [day, odometer === undefined ? '' : t('at {odometer}', { odometer })]
          .filter((part) => part)
          .join(', ');
        return element('li', t('{title}: last done {last}', { title, last }));
      }),
    );
  }

  async #clicked(target: Element): Promise<void> {
    if (target.closest('[data-save]')) return this.#save();
    const article = target.closest<HTMLElement>('.job');
    const id = article?.dataset.id;
    if (!article || id === undefined) return;
    if (target.closest('[data-print]')) this.#print(article);
    const moment = { now: new Date().toISOString(), today: today() };
    if (target.closest('[data-close]') && (await this.#mayClose(id)))
      this.#change((record) => closeJob(record, id, moment));
    if (
      target.closest('[data-delete]') &&
      (await this.#sure(t('Delete this record? This cannot be undone.'), t('Delete it')))
    )
      this.#change((record) => withoutJob(record, id));
  }

  /** Asks where steps are not ticked. */
  async #mayClose(id: string): Promise<boolean> {
    const job = this.#store.read().jobs.find((each) => each.id === id);
    const { done, of } = job ? ticked(job) : { done: 0, of: 0 };
    return (
      done === of ||
      this.#sure(
        t('{open} of {of} steps are not ticked. Close this job anyway?', { open: of - done, of }),
        t('Close it'),
      )
    );
  }

  /** @returns false when the change is gone with the page, which is then said */
  #change(work: (record: ServiceRecord) => ServiceRecord): boolean {
    const kept = this.#store.change(work);
    this.#say(kept ? '' : t('This browser stores nothing: the change is lost when you leave this page.'));
    this.#draw();
    return kept;
  }

  /** Prints one job alone. */
  #print(article: HTMLElement): void {
    for (const each of this.querySelectorAll('.job')) each.classList.toggle('no-print', each !== article);
    print();
    for (const each of this.querySelectorAll('.job')) each.classList.remove('no-print');
  }

  #save(): void {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([recordFile(this.#store.read())], { type: 'application/json' }));
    link.download = `service-record-${today()}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  }

  async #takeIn(field: HTMLInputElement, file: File): Promise<void> {
    const read = readRecordFile(await file.text().catch(() => ''));
    field.value = '';
    if (!read.ok) return this.#say(read.problem);
    if (!this.#change((record) => mergeRecords(record, read.record))) return;
    const jobs = read.record.jobs.length;
    this.#say(
      plural(
        jobs,
        'Taken in: {n} job. What was newer here stayed as it was.',
        'Taken in: {n} jobs. What was newer here stayed as it was.',
      ),
    );
  }

  #sure(question: string, yes: string): Promise<boolean> {
    const dialog = this.querySelector('dialog');
    const words = dialog?.querySelector('[data-question]');
    const button = dialog?.querySelector('[data-yes]');
    if (!dialog || !words || !button) return Promise.resolve(false);
    words.textContent = question;
    button.textContent = yes;
    dialog.returnValue = '';
    dialog.showModal();
    return new Promise((answer) =>
      dialog.addEventListener('close', () => answer(dialog.returnValue === 'yes'), { once: true }),
    );
  }

  #say(words: string): void {
    const status = this.querySelector('.record-words');
    if (status) status.textContent = words;
  }
}

function stepRow(step: JobStep): HTMLTableRowElement {
  const row = document.createElement('tr');
  const head = element('th', `${step.number} ${step.title}`);
  head.setAttribute('scope', 'row');
  const done = element('td', step.done ?? (isWritten(step) ? t('not ticked') : '–'));
  const written = document.createElement('td');
  written.append(
    ...step.readings.map((reading) => {
      const line = element('p', readingText(reading));
      if (reading.verdict === 'out') line.className = 'reading-out';
      return line;
    }),
    ...(step.note === undefined ? [] : [element('p', step.note)]),
  );
  row.append(head, done, written);
  return row;
}

function readingText({ title, value, unit, limits, verdict, on }: Reading): string {
  const judged = verdict === undefined ? t('not judged: the year was not named') : t(VERDICTS[verdict]);
  return `${title}: ${inFigures(String(value), locale)} ${unit}, ${judged} (${limits}), ${on}`;
}

function element<K extends 'p' | 'li' | 'td' | 'th'>(name: K, text: string): HTMLElementTagNameMap[K] {
  const made = document.createElement(name);
  made.textContent = text;
  return made;
}

customElements.define('service-record', ServiceRecordPage);
