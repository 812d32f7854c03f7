/** Something outside the content (disk, ffmpeg, browser) that ends a command with words and exit 3. */
export class OutsideFailure extends Error {
  readonly help: string;
  /** The call itself named something that is not there: exit 2. */
  readonly callIsWrong: boolean;

  constructor(message: string, help: string, callIsWrong = false) {
    super(message);
    this.name = 'OutsideFailure';
    this.help = help;
    this.callIsWrong = callIsWrong;
  }
}
