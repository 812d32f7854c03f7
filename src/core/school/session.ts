/** A reading that was taken, with what it was held against. */
export interface ReadingTaken {
  /** Its name among those that the lesson asks for. */
  readonly name: string;
  readonly title: string;
  readonly value: number;
  readonly unit: string;
  readonly limits: string;
  /** Absent where nothing could be said of it. */
  readonly right?: boolean;
}

/** What a school's system is told of the state of a lesson. */
export interface SchoolState {
  /** Progress, as `progressText` writes it. */
  readonly text: string;
  /** Programme seconds. */
  readonly at: number;
  /** 0 … 1 */
  readonly share: number;
  readonly complete: boolean;
  readonly readings: readonly ReadingTaken[];
}

/** One sitting, as a school's system counts it. */
export interface SchoolSession {
  /** What was kept at the last sitting; empty where nothing was. */
  readonly kept: string;
  /** False where the system only shows the lesson, and records nothing. */
  readonly records: boolean;
  /** What went wrong, in words; empty where all is well. */
  readonly trouble: string;
  /** Where the school's system wants to be shown again afterwards. */
  readonly back?: string;
  keep(state: SchoolState): void;
  /** Also while the page goes. Nothing can be told afterwards. */
  end(state: SchoolState): Promise<void>;
}

/** Readings that are new or other than those that were told before; remembers them as told. */
export class ReadingsTold {
  readonly #told = new Map<string, number>();

  fresh(readings: readonly ReadingTaken[]): readonly ReadingTaken[] {
    const fresh = readings.filter(({ name, value }) => this.#told.get(name) !== value);
    for (const { name, value } of fresh) this.#told.set(name, value);
    return fresh;
  }
}
