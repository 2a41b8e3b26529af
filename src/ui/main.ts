import { restoreLight } from './shell/light.ts';
import './shell/app.ts';

restoreLight();
