export {
  elementText,
  headingText,
  insertBelowHeading,
  insertPassages,
  type NewPassage,
  removeElement,
  setAttributes,
  setFrontMatter,
  setHeading,
} from './mdx.ts';
export { applySplices, lineAfter, lineEnd, lineStart, type Splice } from './splice.ts';
export { insertYaml, type Path, removeYaml, setYaml, setYamlList } from './yaml.ts';
export { flowText, type Plain, scalarText } from './yaml-text.ts';
