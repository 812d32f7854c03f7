export { type LoadedShop, loadShop } from './load-shop.ts';
export { privateFolder } from './private-folder.ts';
