import { restoreLight } from './shell/index.ts';

restoreLight();
