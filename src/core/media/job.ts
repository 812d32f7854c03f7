/** A piece of work as plain data: the same task, inputs and parameters always give the same result. */
export interface Job {
  /** Name of the task that does it. */
  readonly task: string;
  /** Files it reads, by content. */
  readonly inputs: readonly JobInput[];
  /** Everything else that decides the result. */
  readonly params: JobParams;
}

export interface JobInput {
  /** Absolute path, where to read it now; does not decide the result. */
  readonly path: string;
  /** Fingerprint of its content. */
  readonly content: string;
}

export type JobParams = { readonly [key: string]: JobValue };
export type JobValue = string | number | boolean | null | readonly JobValue[] | { readonly [key: string]: JobValue };

/**
 * What decides the result of a job, as one text to be hashed: task, content of its inputs, parameters, and the version
 * of the tool that does it. Keys are in order, so that equal jobs give equal texts.
 */
export function jobText(job: Job, toolVersion: string): string {
  return canonical({
    task: job.task,
    inputs: job.inputs.map(({ content }) => content),
    params: job.params,
    tool: toolVersion,
  });
}

function canonical(value: JobValue): string {
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  if (isList(value)) return `[${value.map(canonical).join(',')}]`;
  const entries = Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${entries.map(([key, inner]) => `${JSON.stringify(key)}:${canonical(inner)}`).join(',')}}`;
}

function isList(value: JobValue): value is readonly JobValue[] {
  return Array.isArray(value);
}
