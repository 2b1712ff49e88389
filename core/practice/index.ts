/** The door of practice/: texts of practice files in, a checked practice or every mistake out. */

export { type AnotherPaper, type AskedToo, anotherPaper, kindTitled } from './another-paper.ts';
export { readLayerFile, writeLayerFile } from './layer-file.ts';
export { type OfficeWord, officeWord } from './office-word.ts';
export {
  type Checked,
  type CheckOptions,
  checkPractice,
  type Layer,
  type Problem,
  readPractice,
} from './read-practice.ts';
