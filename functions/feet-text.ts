/**
 * Lengths as they are read off a tape in feet and inches: `14′ 0″`, `2′ 7 1/2″`, `11 3/4 in`, to the nearest eighth of an inch.
 * A foot is 0.3048 m and an inch 0.0254 m, exactly: NIST Special Publication 811, Guide for the Use of the International System of Units, 2008, appendix B.
 */
/** Not the narrow one that stands between thousands: `1 3/8` must not be read as 13/8. */
const GAP = '\u00a0';
const EIGHTHS = ['', '1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'];
/** Inches beyond which nobody holds a tape, and a number would lose its eighths. */
const LONGEST = 1e9;

export interface TapeText {
  /** What stands before the fraction: `14′ 0`, `11`; nothing where the length is a fraction of an inch. */
  readonly whole: string;
  /** Of feet with the mark of the inches after it: ` 1/2″`. */
  readonly fraction: string;
  /** None where marks say it. */
  readonly unit: string;
}

/**
 * The size of a length on a tape, in inches, without gaps between thousands: a gap parts what is whole from its eighths; undefined where a tape can't say it: shorter than an inch and no whole number of eighths, or endless.
 * `by`: 'ft' counts feet and inches, 'in' inches alone.
 */
export function tapeText(inches: number, by: 'ft' | 'in'): TapeText | undefined {
  const eighths = Math.round(inches * 8);
  if (!(eighths < LONGEST * 8) || (inches < 1 && Math.abs(inches * 8 - eighths) > 1e-9)) return undefined;
  const feet = by === 'ft' ? Math.floor(eighths / 96) : 0;
  const rest = eighths - feet * 96;
  const fraction = EIGHTHS[rest % 8] ?? '';
  const whole = Math.floor(rest / 8);
  const said = feet > 0 || whole > 0 || fraction === '' ? String(whole) : '';
  const part = fraction === '' || said === '' ? fraction : `${GAP}${fraction}`;
  return {
    whole: feet > 0 ? `${feet}′${GAP}${said}` : said,
    fraction: by === 'ft' ? `${part}″` : part,
    unit: by === 'ft' ? '' : 'in',
  };
}
