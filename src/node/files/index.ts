export { type Decoded, decodeText } from './decode.ts';
export { type LoadedShop, loadShop } from './load-shop.ts';
export { privateFolder } from './private-folder.ts';
export { type Saved, saveText, saveTexts, type TextChange } from './save.ts';
