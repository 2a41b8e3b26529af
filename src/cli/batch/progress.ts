/** One line on standard error that says how far a long run is; only where someone watches. */
const EVERY = 200;

export class Progress {
  private readonly began = Date.now();
  private readonly since: number;
  private told = 0;

  /** @param since clients that an earlier run did */
  constructor(since: number) {
    this.since = since;
  }

  tell(clients: number, rejected: number, share: number | undefined): void {
    if (!process.stderr.isTTY || Date.now() - this.told < EVERY) return;
    this.told = Date.now();
    const rate = (clients - this.since) / Math.max(0.001, (this.told - this.began) / 1000);
    const part = share === undefined ? '' : `, ${Math.floor(share * 100)} % of the file read`;
    process.stderr.write(`\r\x1b[K${clients.toLocaleString('en-GB')} clients, ${rejected} rejected, ${rate.toFixed(0)} a second${part}`);
  }

  end(): void {
    if (this.told > 0) process.stderr.write('\r\x1b[K');
  }
}
