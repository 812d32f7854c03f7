import './schema.ts';
import type { JobSheet } from '../../core/pages/index.ts';
import { chosenMachine } from '../my-machine/chosen.ts';
import { newId } from '../page/new-id.ts';
import { Scope } from '../page/scope.ts';
import { today } from '../page/today.ts';
import { plural, t } from '../page/words.ts';
import { changeJob, detail, layOut, noteReading, noteStep, openJob, tick, ticked } from './jobs.ts';
import { judge } from './judge.ts';
import { machineInWords } from './machine-words.ts';
import type { Job } from './schema.ts';
import { RecordStore } from './store.ts';

const FIELDS = ['odometer', 'distanceUnit', 'doneBy', 'checkedBy', 'note'] as const;

/** Keeps what an attendee ticks, measures and notes on the page of a lesson. */
export class LessonRecord extends HTMLElement {
  #scope = new Scope();
  readonly #store = new RecordStore();
  #sheet: JobSheet | undefined;
  /** The job as the page shows it: steps come one by one, and to read the record for each takes time on an old phone. */
  #drawn: Job | undefined;

  connectedCallback(): void {
    this.#scope = new Scope();
    this.#sheet = JSON.parse(this.querySelector('script')?.textContent ?? 'null') ?? undefined;
    // A reading that was typed before this script had come is kept like any other.
    for (const field of document.querySelectorAll<HTMLInputElement>('[data-reading] input'))
      if (field.value !== '') this.#stepChanged(field);
    this.#draw();
    // Letter by letter: who leaves the page in the middle of a word keeps what is there of it.
    this.#scope.listen(document, 'input', ({ target }) => this.#changed(target));
    this.#scope.listen(document, 'change', ({ target }) => {
      if (target instanceof Element && target.closest('my-machine')) this.#draw();
    });
    this.#scope.listen(document, 'click', ({ target }) => {
      const box = target instanceof Element && target.closest('[data-write-note]')?.closest('[data-own-work]');
      if (box) noteField(box).focus();
    });
    // Its fields have come: what stands in them is what was kept.
    this.#scope.listen(document, 'laid-out', ({ target }) => {
      const box = target instanceof Element ? target.querySelector<HTMLElement>('[data-own-work]') : null;
      if (box) this.#drawStep(box, this.#drawn);
    });
    // Another open page has written something down.
    this.#scope.listen(window, 'storage', () => this.#draw());
    this.#scope.listen(this, 'submit', (event) => event.preventDefault());
  }

  disconnectedCallback(): void {
    this.#scope.end();
  }

  /** The open job of this lesson; told of by `job-drawn`. */
  get job(): Job | undefined {
    return this.#sheet && openJob(this.#store.read(), this.#sheet);
  }

  #keep(change: (job: Job) => Job): void {
    const sheet = this.#sheet;
    if (!sheet) return;
    const moment = {
      now: new Date().toISOString(),
      today: today(),
      newId: newId(),
      machine: machineInWords(sheet.machine, chosenMachine()),
    };
    const kept = this.#store.change((record) => changeJob(record, sheet, moment, change));
    const words = this.querySelector('.job-kept');
    if (words)
      words.textContent = kept
        ? ''
        : t('This browser stores nothing: what you write down is lost when you leave this page.');
    this.#draw();
  }

  #changed(target: EventTarget | null): void {
    if (!(target instanceof Element)) return;
    const field = target as HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;
    const { layOut: key } = field.dataset;
    if (field instanceof HTMLInputElement && key !== undefined) this.#keep((job) => layOut(job, key, field.checked));
    else if (this.contains(field)) this.#keep((job) => detail(job, detailsFrom(field)));
    else this.#stepChanged(field);
  }

  #stepChanged(field: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement): void {
    const step = field.closest<HTMLElement>('[data-own-work]')?.dataset.ownWork;
    if (step === undefined) return;
    const spec = field.closest<HTMLElement>('[data-reading]')?.dataset.reading;
    if (spec !== undefined) this.#takeDown(step, spec, field.value);
    else if (field instanceof HTMLInputElement)
      this.#keep((job) => tick(job, step, field.checked ? today() : undefined));
    else this.#keep((job) => noteStep(job, step, field.value));
  }

  #measured(step: string, spec: string | undefined) {
    return this.#sheet?.measured.find((each) => each.step === step && each.spec === spec);
  }

  #takeDown(step: string, spec: string, written: string): void {
    const measured = this.#measured(step, spec);
    if (!measured) return;
    const { title, unit } = measured;
    const value = Number(written);
    const { verdict, limits } = judge(value, measured, chosenMachine());
    const reading = { spec, title, value, unit, limits, ...(verdict && { verdict }), on: today() };
    this.#keep((job) => noteReading(job, step, spec, written === '' ? undefined : reading));
  }

  #judge(line: HTMLElement, step: string): void {
    const output = line.querySelector('output');
    const measured = this.#measured(step, line.dataset.reading);
    const written = line.querySelector('input')?.value ?? '';
    if (!output || !measured) return;
    const { verdict = '', words = '' } = written === '' ? {} : judge(Number(written), measured, chosenMachine());
    say(output, words);
    if (output.dataset.verdict !== verdict) output.dataset.verdict = verdict;
  }

  #draw(): void {
    const { job } = this;
    this.#drawn = job;
    this.#drawLaidOut(job);
    for (const box of document.querySelectorAll<HTMLElement>('[data-own-work]')) this.#drawStep(box, job);
    const form = this.querySelector('form');
    for (const name of FIELDS) {
      const field = form?.elements.namedItem(name);
      if (
        field instanceof HTMLInputElement ||
        field instanceof HTMLSelectElement ||
        field instanceof HTMLTextAreaElement
      )
        setValue(field, String(job?.[name] ?? (name === 'distanceUnit' ? 'km' : '')));
    }
    const progress = this.querySelector('[data-progress]');
    const { done, of } = job ? ticked(job) : { done: 0, of: this.#sheet?.steps.length ?? 0 };
    if (progress) say(progress, t('{done} of {of} steps ticked.', { done, of }));
    this.dispatchEvent(new Event('job-drawn'));
  }

  #drawLaidOut(job: Job | undefined): void {
    const boxes = [...document.querySelectorAll<HTMLInputElement>('[data-lay-out]')];
    for (const box of boxes) box.checked = job?.laidOut.includes(box.dataset.layOut ?? '') ?? false;
    const words = document.querySelector<HTMLElement>('[data-laid-out]');
    const out = boxes.filter(({ checked }) => checked).length;
    if (words)
      say(
        words,
        out === 0
          ? plural(boxes.length, '{n} thing', '{n} things')
          : t('{out} of {of} laid out', { out, of: boxes.length }),
      );
  }

  #drawStep(box: HTMLElement, job: Job | undefined): void {
    const id = box.dataset.ownWork ?? '';
    const step = job?.steps.find((each) => each.id === id);
    const tickBox = box.querySelector<HTMLInputElement>('[data-tick]');
    if (tickBox) tickBox.checked = step?.done !== undefined;
    const said = box.querySelector('[data-ticked]');
    if (said) say(said, step?.done === undefined ? t('Done') : t('Done on {day}', { day: step.done }));
    box.closest('.step')?.classList.toggle('ticked', step?.done !== undefined);
    const note = step?.note === undefined ? box.querySelector('textarea') : noteField(box);
    if (note) setValue(note, step?.note ?? '');
    for (const line of box.querySelectorAll<HTMLElement>('[data-reading]')) {
      const field = line.querySelector('input');
      const reading = step?.readings.find(({ spec }) => spec === line.dataset.reading);
      if (field) setValue(field, reading ? String(reading.value) : '');
      this.#judge(line, id);
    }
  }
}

/**
 * The field of a step's note. It is made where one is wanted: browsers look at every field of a page as it opens, and lay out
 * the step round each for it.
 */
function noteField(box: Element): HTMLTextAreaElement {
  const there = box.querySelector('textarea');
  if (there) return there;
  const [label, field] = [document.createElement('label'), document.createElement('textarea')];
  label.className = 'own-note';
  field.rows = 2;
  label.append(t('Note'), ' ', field);
  box.append(label);
  return field;
}

/** Words that stand there already are left: to write them again lays the page out again. */
function say(element: Element, words: string): void {
  if (element.textContent !== words) element.textContent = words;
}

/** A field that somebody is in keeps what they have typed. */
function setValue(field: HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement, value: string): void {
  if (field !== document.activeElement && field.value !== value) field.value = value;
}

function detailsFrom({ name, value }: { readonly name: string; readonly value: string }): Parameters<typeof detail>[1] {
  if (name === 'odometer') return { odometer: value === '' || Number(value) < 0 ? undefined : Number(value) };
  if (name === 'distanceUnit') return { distanceUnit: value === 'mi' ? 'mi' : 'km' };
  return { [name]: value.trim() };
}

customElements.define('lesson-record', LessonRecord);
