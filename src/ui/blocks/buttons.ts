import { html, type TemplateResult } from 'lit';
import type { Act } from '../parts/index.ts';

/** Commands as buttons on the page. */
export const buttons = (acts: readonly Act[]): readonly TemplateResult[] =>
  acts.map((act) => html`<button type="button" class="btn" ?disabled=${!act.usable} @click=${act.run}>${act.label}</button>`);
