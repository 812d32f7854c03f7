export { captionsOf } from './caption-words.ts';
export { type Laid, layingText, layText } from './lay.ts';
export { evenedOut, HEARD_RATE, LOOK, type Looks, lookAt, NUMBERS } from './looks.ts';
export { readScript, type Sentence } from './script.ts';
export { type SpokenPart, type TimedScript, type TimedWord, timeWords } from './time-words.ts';
export { isUnread, mergeWords, unreadId } from './unread.ts';
