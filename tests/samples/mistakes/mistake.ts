/** One edit to a sound shop, and the one finding it must give. */
export interface Mistake {
  /** The mistake in a few words; unlike every other. */
  readonly name: string;
  /** Path in the shop. */
  readonly file: string;
  /** Stands once in the file; left out where the file is written anew, or taken away. */
  readonly from?: string;
  /** What it becomes; nothing takes the file away. */
  readonly to?: string;
  /** Where the file is kept under another name. */
  readonly renamed?: string;
  /** How the file's text is stored, where that is the mistake. */
  readonly stored?: 'latin1' | 'utf16le' | 'crlf';
  /** The rule that tells it; `read rightly` where it is none after all. */
  readonly gives: string;
  readonly severity?: 'error' | 'warning' | 'info';
  /** Text on the line that is told, in the changed file unless another is named. */
  readonly at?: string;
  readonly in?: string;
}
