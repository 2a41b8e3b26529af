/** Copying, cutting and pasting by a command: for whoever has no keys at hand. The table does with the events made here what it does with those of keys. */
import { chosenTable } from './tables.ts';

export type Clip = 'copy' | 'cut' | 'paste';

/** What went out last. The browser gives back only its text, without the formulas, units and notes that went with it. */
let last = { text: '', html: '' };

/** Gives what there is to say of it. */
export async function clip(verb: Clip): Promise<string | undefined> {
  const input = chosenTable()?.input;
  const data = new DataTransfer();
  try {
    if (verb === 'paste') {
      const text = (await navigator.clipboard.readText()).replaceAll('\r\n', '\n');
      data.setData('text/plain', text);
      if (text === last.text) data.setData('text/html', last.html);
    }
    input?.dispatchEvent(new ClipboardEvent(verb, { clipboardData: data, cancelable: true }));
    if (verb === 'paste' || data.types.length === 0) return undefined;
    last = { text: data.getData('text/plain'), html: data.getData('text/html') };
    const kinds = { 'text/plain': last.text, 'text/html': last.html };
    await navigator.clipboard.write([new ClipboardItem(Object.fromEntries(Object.entries(kinds).map(([type, text]) => [type, new Blob([text], { type })])))]);
    return verb === 'copy' ? 'Copied. Choose where it goes, and paste it there.' : undefined;
  } catch {
    return `The browser does not let this page ${verb === 'paste' ? 'see what was copied' : 'put anything among what is copied'}. Allow it where the browser asks, or use the keys.`;
  }
}
