export { Board, type Listed } from './board.ts';
export { connect } from './connect.ts';
export { queueCrew } from './crew.ts';
export { openMediaStore } from './open-store.ts';
export { neededSettings, newToken, shownAddress } from './settings.ts';
export { workerSkills } from './skills.ts';
export { work } from './worker.ts';
