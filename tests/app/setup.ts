import { build } from '../build.ts';

export default (): void => build('vite.config.ts');
