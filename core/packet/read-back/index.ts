export { type ReadBackReport, readBack } from './read-back.ts';
