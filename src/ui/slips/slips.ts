import { html, type TemplateResult } from 'lit';
import type { PageDesk } from '../commands/desk.ts';
import type { Desk } from '../parts/command.ts';
import type { Wishes } from '../parts/part.ts';

/** The slips that commands lay on the page: empty until their part of the program is fetched. */
export const slips = (desk: PageDesk & Desk): TemplateResult => html`
  <ob-ask-slip></ob-ask-slip>
  <ob-range-slip></ob-range-slip>
  <ob-find-slip></ob-find-slip>
  <ob-line-menu .desk=${desk}></ob-line-menu>
  <ob-paste-slip @ob-bring=${(e: CustomEvent<Wishes['bring']>) => desk.take(e.detail.change)}></ob-paste-slip>`;
