export function serve(port?: number, folder?: string): Promise<{ readonly address: string; readonly stop: () => Promise<void> }>;
