/** What stands under a formula that is being written: the argument it stands in, what could come next, what is wrong, what it reads. */
import { html, nothing, type TemplateResult } from 'lit';
import { addressOf, decimalsOf } from '../../book/look-up.ts';
import type { Values } from '../../engine/types.ts';
import { lineAt, valueAt, valueLine } from '../cells/index.ts';
import { waysOut } from '../parts/index.ts';
import type { Candidate } from './completion.ts';
import type { Hint, Verdict } from './hints.ts';
import type { Cited } from './letters.ts';

export interface Below {
  readonly id: string;
  readonly hint: Hint | undefined;
  readonly list: readonly Candidate[];
  readonly picked: number;
  readonly take: (candidate: Candidate) => void;
  readonly verdict: Verdict;
  readonly cited: readonly Cited[];
  readonly values: Values;
  /** Of the cell that was just put in, for the ear. */
  readonly saidOfPick: string;
  readonly picks: 'begins' | 'moves' | undefined;
  readonly keep: () => void;
  readonly leave: () => void;
}

export function slipBelow({ id, hint, list, picked, take, verdict, cited, values, saidOfPick, picks, keep, leave }: Below): TemplateResult {
  const keys =
    list.length > 0
      ? html`<span><kbd>↓</kbd> <kbd>↑</kbd> pick, <kbd>Enter</kbd> puts it in</span>`
      : picks === 'begins'
        ? html`<span>Click a cell, or <kbd>↑</kbd> <kbd>↓</kbd>, to put it in</span>`
        : picks === 'moves'
          ? html`<span>Arrows take another cell, with <kbd>Shift</kbd> a range</span>`
          : nothing;
  return html`<div class="argument" id="${id}-hint">${hint ? argument(hint) : nothing}</div>
    ${
      list.length > 0
        ? html`<ul class="pick" role="listbox" id="${id}-list" aria-label="What could stand here">${list.map(
            (candidate, i) =>
              html`<li role="option" id="${id}-${i}" aria-selected=${i === picked} @pointerdown=${(event: Event) => {
                event.preventDefault();
                event.stopPropagation();
                take(candidate);
              }} @mousedown=${(event: Event) => event.preventDefault()}><code>${candidate.label}</code><span>${candidate.detail}</span></li>`,
          )}</ul>`
        : nothing
    }
    <p role="status" class=${verdict.wrong ? 'wrong' : 'hint'}>${verdict.text}</p>
    <span class="unseen" role="status">${saidOfPick}</span>
    ${
      cited.length > 0
        ? html`<ul class="reads" aria-label="What it reads">${cited.map(
            (each) =>
              html`<li><i class="letter ${lineAt(each.letter)}">${each.letter}</i><span>${each.heading}</span><code>${each.written}</code><span class="val">${each.range ? '' : valueLine(valueAt(values, addressOf(each.at)), decimalsOf(each.at))}</span></li>`,
          )}</ul>`
        : nothing
    }
    ${waysOut(keep, leave, keys)}`;
}

function argument({ name, takes, says }: Hint): TemplateResult {
  return html`<code>${name}(${takes.map(({ text, now }, i) => html`${i > 0 ? ', ' : ''}${now ? html`<b>${text}</b>` : text}`)})</code>${says ? html`<span>${says}</span>` : nothing}`;
}
