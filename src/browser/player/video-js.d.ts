// The entry without streaming has no types of its own.
declare module 'video.js/core' {
  export { default } from 'video.js';
}
