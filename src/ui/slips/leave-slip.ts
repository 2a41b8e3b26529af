import { html, nothing, render } from 'lit';

/** Asks whoever would put away the book that stands on the page and is not saved. False: they stay. `sendOut` hands over the file and gives its name. */
export function askToLeave(page: Element, why: string, sendOut: () => Promise<string>): Promise<boolean> {
  const dialog = document.createElement('dialog');
  dialog.className = 'slip-box';
  dialog.setAttribute('aria-label', 'Not saved');
  const draw = (said = ''): void => {
    const send = (): void =>
      void sendOut().then(
        (name) => draw(`Sent out ${name}.`),
        (error) => draw(`It could not be sent out. (${error})`),
      );
    render(
      html`<p><b>Not saved.</b> ${why}</p>
        <p>Put away now, the book is on the shelf of this page, marked as not saved, and is tried again; with this page it would be gone. As a file it is safe.</p>
        ${said ? html`<p role="status">${said}</p>` : nothing}
        <div class="do">
          <button type="button" class="btn first" @click=${send}>Send out the book as a file</button>
          <button type="button" class="btn" @click=${() => dialog.close()}>Stay here</button>
          <button type="button" class="btn" @click=${() => dialog.close('go')}>Go on without saving</button>
        </div>`,
      dialog,
    );
  };
  draw();
  page.append(dialog);
  dialog.showModal();
  return new Promise((resolve) => {
    dialog.addEventListener('close', () => {
      dialog.remove();
      resolve(dialog.returnValue === 'go');
    });
  });
}
