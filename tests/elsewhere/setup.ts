import { findEngines } from '../../src/setup/engines.mjs';
import { build } from '../build.ts';

export default (): void => {
  findEngines();
  // What is packed holds the page too.
  build('page');
  build('command-line');
};
