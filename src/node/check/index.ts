export { checkFolder } from './check-folder.ts';
