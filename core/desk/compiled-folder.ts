export { compiledFolder } from '../workers/compiled-folder.ts';
