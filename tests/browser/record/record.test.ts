import { expect, test } from 'vitest';
import {
  changeJob,
  closeJob,
  detail,
  keepInterval,
  layOut,
  type Moment,
  noteReading,
  noteStep,
  openJob,
  tick,
  ticked,
  withoutJob,
} from '../../../src/browser/record/jobs.ts';
import { EMPTY_RECORD, type Job, type Reading, type ServiceRecord } from '../../../src/browser/record/schema.ts';
import { RECORD_KEY, RecordStore } from '../../../src/browser/record/store.ts';
import { mergeRecords, readRecordFile, recordFile } from '../../../src/browser/record/transfer.ts';

const LESSON = {
  shop: 'Millrace',
  lesson: 'chain',
  title: 'Chain',
  steps: [
    { id: 'measure', number: '1.1', title: 'Measure' },
    { id: 'oil', number: '1.2', title: 'Oil' },
  ],
};
const moment = (time: string, newId = 'job-1'): Moment => ({
  now: `2027-03-06T${time}Z`,
  today: '2027-03-06',
  newId,
  machine: 'Tarn 420, 2020',
});
const READING: Reading = {
  spec: 'slack',
  title: 'Slack',
  value: 31,
  unit: 'mm',
  limits: '25–35 mm',
  verdict: 'in',
  on: '2027-03-06',
};
const change = (work: (job: Job) => Job, record: ServiceRecord = EMPTY_RECORD, at = '10:00:00') =>
  changeJob(record, LESSON, moment(at), work);
const only = (record: ServiceRecord): Job => {
  const [job, ...others] = record.jobs;
  if (!job || others.length > 0) throw new Error(`${record.jobs.length} jobs`);
  return job;
};

test('the first thing written down begins a job, the next goes on with it', () => {
  const first = change((job) => layOut(job, 'tool breaker-bar', true));
  expect(only(first)).toMatchObject({ id: 'job-1', begun: '2027-03-06', machine: 'Tarn 420, 2020', title: 'Chain' });
  const second = changeJob(first, LESSON, moment('10:05:00', 'job-2'), (job) => tick(job, 'oil', '2027-03-06'));
  expect(only(second)).toMatchObject({
    id: 'job-1',
    changed: '2027-03-06T10:05:00Z',
    laidOut: ['tool breaker-bar'],
    steps: [
      { id: 'measure', readings: [] },
      { id: 'oil', done: '2027-03-06' },
    ],
  });
  expect(ticked(only(second))).toEqual({ done: 1, of: 2 });
  expect(openJob(second, { shop: 'another shop', lesson: 'chain' })).toBeUndefined();
});

test('what was ticked, laid out, noted or measured can be taken back, and leaves nothing behind', () => {
  let record = change((job) => layOut(layOut(job, 'part chain', true), 'part chain', true));
  expect(only(record).laidOut).toEqual(['part chain']);
  record = change((job) => noteStep(tick(job, 'oil', '2027-03-06'), 'oil', ' two drops '), record);
  record = change((job) => noteReading(job, 'measure', 'slack', READING), record);
  record = change((job) => noteReading(job, 'measure', 'slack', { ...READING, value: 32 }), record);
  record = change((job) => detail(job, { odometer: 12_400, doneBy: 'A', checkedBy: 'B' }), record);
  expect(only(record)).toMatchObject({
    odometer: 12_400,
    doneBy: 'A',
    steps: [{ readings: [{ value: 32 }] }, { note: 'two drops' }],
  });
  record = change((job) => noteReading(job, 'measure', 'slack', undefined), record);
  record = change((job) => noteStep(tick(job, 'oil', undefined), 'oil', ' '), record);
  record = change((job) => layOut(job, 'part chain', false), record);
  record = change((job) => detail(job, { odometer: undefined, doneBy: '' }), record);
  const { steps, laidOut, odometer, doneBy, checkedBy } = only(record);
  expect({ steps, laidOut, odometer, doneBy, checkedBy }).toEqual({
    steps: LESSON.steps.map((step) => ({ ...step, readings: [] })),
    laidOut: [],
    checkedBy: 'B',
  });
});

test('a lesson that is rewritten loses nothing that was written down', () => {
  const record = change((job) => tick(noteStep(job, 'measure', 'worn'), 'oil', '2027-03-06'));
  const rewritten = {
    ...LESSON,
    steps: [
      { id: 'look', number: '1.1', title: 'Look' },
      { id: 'oil', number: '1.2', title: 'Oil it' },
    ],
  };
  const { steps } = only(changeJob(record, rewritten, moment('11:00:00'), (job) => job));
  expect(steps).toEqual([
    { id: 'look', number: '1.1', title: 'Look', readings: [] },
    { id: 'oil', number: '1.2', title: 'Oil it', readings: [], done: '2027-03-06' },
    { id: 'measure', number: '1.1', title: 'Measure', readings: [], note: 'worn' },
  ]);
  // A step of which nothing was written goes with the lesson.
  const gone = { ...rewritten, steps: rewritten.steps.slice(1) };
  expect(
    only(
      changeJob(
        change((job) => job),
        gone,
        moment('11:00:00'),
        (job) => job,
      ),
    ).steps,
  ).toHaveLength(1);
});

test('a closed job stays as it is, and the lesson begins anew', () => {
  const closed = closeJob(
    change((job) => tick(job, 'oil', '2027-03-06')),
    'job-1',
    { now: '2027-03-07T09:00:00Z', today: '2027-03-07' },
  );
  expect(only(closed)).toMatchObject({ closed: '2027-03-07', changed: '2027-03-07T09:00:00Z' });
  const next = changeJob(closed, LESSON, moment('12:00:00', 'job-2'), (job) => tick(job, 'measure', '2027-03-06'));
  expect(next.jobs.map(({ id, closed, steps }) => [id, closed, steps.filter(({ done }) => done).length])).toEqual([
    ['job-1', '2027-03-07', 1],
    ['job-2', undefined, 1],
  ]);
  expect(withoutJob(next, 'job-1').jobs.map(({ id }) => id)).toEqual(['job-2']);
});

test('an interval is kept once a row, the last time it was written down', () => {
  const kept = {
    row: 'tarn-420 fluid',
    title: 'Brake fluid',
    day: '2026-01-01',
    odometer: 9000,
    changed: '2026-01-01',
  };
  const record = keepInterval(keepInterval(EMPTY_RECORD, kept), { ...kept, odometer: 12_000 });
  expect(record.intervals).toEqual([{ ...kept, odometer: 12_000 }]);
});

test('a record survives the way into a file and back, and files of two devices become one in either order', () => {
  const bench = change((job) => noteReading(job, 'measure', 'slack', READING));
  const file = readRecordFile(recordFile(bench));
  expect(file).toEqual({ ok: true, record: bench });
  const sofa = changeJob(bench, LESSON, moment('18:00:00'), (job) => noteStep(job, 'oil', 'again on Sunday'));
  const phone = changeJob(EMPTY_RECORD, { ...LESSON, lesson: 'brake' }, moment('09:00:00', 'job-9'), (job) => job);
  for (const merged of [
    mergeRecords(bench, mergeRecords(sofa, phone)),
    mergeRecords(mergeRecords(phone, sofa), bench),
  ]) {
    expect(merged.jobs.map(({ id }) => id).toSorted()).toEqual(['job-1', 'job-9']);
    expect(merged.jobs.find(({ id }) => id === 'job-1')).toEqual(only(sofa));
  }
});

test.each([
  ['PK\u0003\u0004', /cannot be read at all/],
  ['{"jobs": []}', /something else/],
  ['null', /something else/],
  ['{"format": "service record", "version": 2}', /newer page/],
  ['{"format": "service record", "version": 1, "jobs": [{}], "intervals": []}', /damaged at jobs › 0/],
])('a file that is no record is refused in words: %s', (text, says) => {
  const read = readRecordFile(text);
  expect(read.ok ? '' : read.problem).toMatch(says);
  expect(read.ok ? '' : read.problem).toMatch(/nothing was changed/i);
});

/** Storage as the HTML standard lays it down, in memory. */
function memory(texts = new Map<string, string>()) {
  return {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, value: string) => texts.set(key, value),
  };
}

test('two open pages do not undo each other', () => {
  const storage = memory();
  const [one, other] = [new RecordStore(() => storage), new RecordStore(() => storage)];
  one.read();
  other.change((record) => change((job) => tick(job, 'oil', '2027-03-06'), record));
  one.change((record) => change((job) => noteStep(job, 'measure', 'worn'), record));
  expect(ticked(only(other.read()))).toEqual({ done: 1, of: 2 });
  expect(only(other.read()).steps[0]?.note).toBe('worn');
});

test('what cannot be read is put aside, not thrown away', () => {
  for (const text of ['{', '{"format":"service record","version":7}']) {
    const texts = new Map([[RECORD_KEY, text]]);
    const store = new RecordStore(() => memory(texts));
    expect(store.read()).toEqual(EMPTY_RECORD);
    store.change((record) => change((job) => job, record));
    expect([...texts.values()]).toContain(text);
    expect(store.read().jobs).toHaveLength(1);
  }
});

test('where a browser keeps nothing, the page goes on with what it knows and says so', () => {
  const shut = new RecordStore(() => {
    throw new DOMException('', 'SecurityError');
  });
  expect(shut.read()).toEqual(EMPTY_RECORD);
  expect(shut.change((record) => change((job) => tick(job, 'oil', '2027-03-06'), record))).toBe(false);
  expect(shut.change((record) => change((job) => tick(job, 'measure', '2027-03-06'), record))).toBe(false);
  expect(ticked(only(shut.read()))).toEqual({ done: 2, of: 2 });
});
