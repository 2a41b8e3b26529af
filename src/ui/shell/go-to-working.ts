import { chosenTable } from '../table/index.ts';

/** From the table into the working of its chosen value, and back again. */
export function goToWorking(page: Element): void {
  const working = page.querySelector<HTMLElement>('.working');
  if (working?.contains(document.activeElement)) chosenTable()?.take();
  else working?.focus();
}
