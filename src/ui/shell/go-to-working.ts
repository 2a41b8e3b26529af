import { chosenTable } from '../table/index.ts';

/** From the table into the working of its chosen value, and back again. */
export function goToWorking(page: Element): void {
  const working = page.querySelector<HTMLElement>('.working');
  if (working?.contains(document.activeElement)) chosenTable()?.take();
  else working?.focus();
}

/** The working alone on paper, as far down as it is unfolded. */
export function printWorking(): void {
  const { classList } = document.documentElement;
  classList.add('working-alone');
  addEventListener('afterprint', () => classList.remove('working-alone'), { once: true });
  print();
}
