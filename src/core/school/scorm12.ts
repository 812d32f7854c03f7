import { twoDigits } from '../time/index.ts';
import { ReadingsTold, type ReadingTaken, type SchoolSession, type SchoolState } from './session.ts';

/** The adapter that a school's system offers to a page: ADL, SCORM 1.2 Run-Time Environment, 3.3. */
export interface Scorm12Api {
  LMSInitialize(empty: ''): unknown;
  LMSFinish(empty: ''): unknown;
  LMSGetValue(element: string): unknown;
  LMSSetValue(element: string, value: string): unknown;
  LMSCommit(empty: ''): unknown;
  LMSGetLastError(): unknown;
  LMSGetErrorString(code: string): unknown;
}

/** CMIString4096 and CMIString255, SCORM 1.2 Run-Time Environment, 3.4.2. */
export const MOST_SUSPENDED = 4096;
const MOST_NAME = 255;

/**
 * Milliseconds as CMITimespan, HHHH:MM:SS.SS; CMITime has the same form with two figures of hours.
 * SCORM 1.2 Run-Time Environment, 3.4.2.
 */
export function timespan(milliseconds: number): string {
  const hundredths = Math.min(Math.round(milliseconds / 10), 9999 * 360_000 + 359_999);
  const two = (n: number) => twoDigits(Math.floor(n));
  const hours = String(Math.floor(hundredths / 360_000)).padStart(4, '0');
  return `${hours}:${two((hundredths / 6000) % 60)}:${two((hundredths / 100) % 60)}.${two(hundredths % 100)}`;
}

/** A sitting in a system that speaks SCORM 1.2. Its calls are answered at once, so that they work while the page goes. */
export class Scorm12Session implements SchoolSession {
  readonly kept: string;
  readonly records: boolean;
  trouble = '';
  readonly #api: Scorm12Api;
  readonly #now: () => Date;
  readonly #began: number;
  readonly #readings = new ReadingsTold();
  #interactions: number | undefined;
  #complete: boolean;
  #open: boolean;

  constructor(api: Scorm12Api, now: () => Date) {
    this.#api = api;
    this.#now = now;
    this.#began = now().getTime();
    this.#open = isTrue(api.LMSInitialize(''));
    if (!this.#open) this.#blame('does not begin');
    const status = this.#open ? this.#get('cmi.core.lesson_status') : '';
    // 3.4.4: in review nothing of what was reached changes.
    this.records = this.#open && this.#get('cmi.core.lesson_mode') !== 'review';
    this.kept = this.#open ? this.#get('cmi.suspend_data') : '';
    this.#complete = status === 'completed' || status === 'passed';
    if (this.records && !this.#complete && status !== 'incomplete') this.#set('cmi.core.lesson_status', 'incomplete');
    // Interactions are optional: a system that knows them says which of their elements it supports.
    const count =
      this.records && this.#get('cmi.interactions._children') !== '' ? this.#get('cmi.interactions._count') : '';
    if (/^\d+$/.test(count)) this.#interactions = Number(count);
    if (this.records) this.#commit();
  }

  keep(state: SchoolState): void {
    if (!this.#open || !this.records) return;
    this.#write(state);
    this.#commit();
  }

  async end(state: SchoolState): Promise<void> {
    if (!this.#open) return;
    if (this.records) this.#write(state);
    this.#set('cmi.core.session_time', timespan(this.#now().getTime() - this.#began));
    // What is kept for the next sitting stays only so.
    this.#set('cmi.core.exit', 'suspend');
    this.#commit();
    this.#api.LMSFinish('');
    this.#open = false;
  }

  #write({ text, at, complete, readings }: SchoolState): void {
    if (text.length > MOST_SUSPENDED) this.trouble = 'The lesson is too long to be kept by the system of your school.';
    else this.#set('cmi.suspend_data', text);
    this.#set('cmi.core.lesson_location', at.toFixed(1));
    for (const reading of this.#readings.fresh(readings)) this.#tell(reading);
    // What was complete once stays so.
    if (complete && !this.#complete) this.#complete = this.#set('cmi.core.lesson_status', 'completed');
  }

  /** 3.4.4, cmi.interactions: written only, each at the next place; the type before the response that it decides. */
  #tell({ name, value, right }: ReadingTaken): void {
    if (this.#interactions === undefined) return;
    const at = `cmi.interactions.${this.#interactions++}`;
    this.#api.LMSSetValue(`${at}.id`, name.replace(/[^A-Za-z0-9._-]/g, '_').slice(0, MOST_NAME));
    this.#api.LMSSetValue(`${at}.type`, 'numeric');
    this.#api.LMSSetValue(`${at}.time`, timespan(sinceMidnight(this.#now())).slice(2));
    this.#api.LMSSetValue(`${at}.student_response`, String(value));
    this.#api.LMSSetValue(`${at}.result`, right === undefined ? 'neutral' : right ? 'correct' : 'wrong');
  }

  #get(element: string): string {
    const value = this.#api.LMSGetValue(element);
    return value === undefined || value === null ? '' : String(value);
  }

  #set(element: string, value: string): boolean {
    const kept = isTrue(this.#api.LMSSetValue(element, value));
    if (!kept) this.#blame(`does not keep ${element}`);
    return kept;
  }

  #commit(): void {
    if (!isTrue(this.#api.LMSCommit(''))) this.#blame('could not store what was recorded');
  }

  #blame(what: string): void {
    const code = String(this.#api.LMSGetLastError());
    this.trouble = `The system of your school ${what} (${code}, ${String(this.#api.LMSGetErrorString(code))}). What you write down stays in this browser.`;
  }
}

function isTrue(answer: unknown): boolean {
  return answer === true || answer === 'true';
}

function sinceMidnight(now: Date): number {
  return ((now.getHours() * 60 + now.getMinutes()) * 60 + now.getSeconds()) * 1000 + now.getMilliseconds();
}
