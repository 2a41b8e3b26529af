import { html, nothing, svg } from 'lit/html.js';
import { expect, it } from 'vitest';
import { templateText } from '../../src/handover/text.ts';

it('quotes attributes that have no quotes of their own, and escapes what stands in them and between tags', () => {
  const nasty = `<b>"&'`;
  expect(templateText(html`<p title=${nasty} class="a ${nasty}">${nasty}</p>`)).toBe(
    '<p title="&lt;b&gt;&quot;&amp;&#39;" class="a &lt;b&gt;&quot;&amp;&#39;">&lt;b&gt;&quot;&amp;&#39;</p>',
  );
});

it('writes templates within templates, lists, numbers and nothing', () => {
  expect(templateText(html`<ul>${[1, 2].map((n) => html`<li>${n}</li>`)}${nothing}</ul>${svg`<path d=${'M0,0'} />`}`)).toBe(
    '<ul><li>1</li><li>2</li></ul><path d="M0,0" />',
  );
});

it('refuses what a text can’t hold', () => {
  expect(() => templateText(html`<button @click=${'x'}>a</button>`)).toThrow('plain attributes');
  expect(() => templateText(html`<p>${true}</p>`)).toThrow('can’t be written'.replace('’', "'"));
});
