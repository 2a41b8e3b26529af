import { build } from '../build.ts';

export default (): void => build('src/cli/vite.config.ts');
