export { PAPERS, type Paper, printPaper } from './print-paper.ts';
