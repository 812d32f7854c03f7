declare module 'compression' {
  import type { IncomingMessage, ServerResponse } from 'node:http';

  /** Only what is used: answers that follow are compressed as far as the browser takes it. */
  export default function compression(): (request: IncomingMessage, response: ServerResponse, next: () => void) => void;
}
