/** By the clock of whoever sits here: year, month, day. */
export function today(): string {
  const now = new Date();
  return [String(now.getFullYear()).padStart(4, '0'), ...[now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, '0'))].join('-');
}
