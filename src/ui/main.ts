import { restoreLight } from './controllers/light.ts';
import './app.ts';

restoreLight();
