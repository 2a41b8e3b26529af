/**
 * What the functions take: for ours from their records, for the standard's from the list beneath. Its names for the arguments are
 * our own plain words; how many there are is the standard's syntax, as far as the calculator goes with it.
 */
import { type Signature, signatureIn } from '../../functions/check-args.ts';
import { functions } from '../../functions/index.ts';

/** In square brackets: may be left out. `…`: the last may come again and again; `…2`: the last two together. */
const STANDARD = `
ABS(number) ACOS(number) ACOSH(number) ACOT(number) ACOTH(number) AND(condition, …) ASIN(number) ASINH(number) ATAN(number) ATAN2(x, y)
ATANH(number) AVEDEV(value, …) AVERAGE(value, …) AVERAGEIF(cells, criterion, [averaged cells]) CEILING(number, [step], [mode]) CHAR(number)
CHOOSE(which, value, …) CLEAN(text) CODE(text) COLUMN([cell]) COLUMNS(cells) COMBIN(number, chosen) CONCATENATE(text, …) CORREL(first cells, second cells)
COS(angle) COSH(number) COT(angle) COTH(number) COUNT(value, …) COUNTA(value, …) COUNTBLANK(cells) COUNTIF(cells, criterion)
COUNTIFS(cells, criterion, …2) COVAR(first cells, second cells) DATE(year, month, day) DATEVALUE(text) DAVERAGE(list, column, criteria) DAY(date)
DAYS360(first day, last day, [European]) DB(cost, salvage, life, period, [months]) DCOUNT(list, column, criteria) DCOUNTA(list, column, criteria)
DDB(cost, salvage, life, period, [factor]) DEGREES(angle) DEVSQ(value, …) DGET(list, column, criteria) DMAX(list, column, criteria)
DMIN(list, column, criteria) DPRODUCT(list, column, criteria) DSTDEV(list, column, criteria) DSTDEVP(list, column, criteria) DSUM(list, column, criteria)
DVAR(list, column, criteria) DVARP(list, column, criteria) EFFECT(rate, payments) EOMONTH(date, months) ERF(from, [to]) ERFC(number) EVEN(number)
EXACT(first text, second text) EXP(number) EXPONDIST(number, rate, cumulative) FACT(number) FALSE() FIND(text wanted, text, [start]) FISHER(number)
FISHERINV(number) FLOOR(number, [step], [mode]) FORECAST(x, known y, known x) FV(rate, periods, payment, [present value], [type]) GAMMALN(number)
GCD(number, …) GEOMEAN(value, …) HARMEAN(value, …) HLOOKUP(wanted, cells, row, [sorted]) HOUR(time) IF(condition, then, [otherwise])
IFERROR(value, otherwise) INDEX(cells, row, [column]) INT(number) INTERCEPT(known y, known x) IRR(amounts, [guess]) ISBLANK(value) ISERR(value)
ISERROR(value) ISEVEN(number) ISLOGICAL(value) ISNA(value) ISNONTEXT(value) ISNUMBER(value) ISODD(number) ISTEXT(value) LARGE(cells, which)
LCM(number, …) LEFT(text, [length]) LEN(text) LN(number) LOG(number, [base]) LOG10(number) LOGINV(probability, mean, deviation)
LOGNORMDIST(number, mean, deviation, cumulative) LOOKUP(wanted, searched cells, [result cells]) LOWER(text) MATCH(wanted, cells, [type]) MAX(value, …)
MEDIAN(value, …) MID(text, start, length) MIN(value, …) MINUTE(time) MIRR(amounts, rate paid, rate earned) MOD(number, divisor) MODE(value, …)
MONTH(date) N(value) NA() NETWORKDAYS(first day, last day, [holidays]) NOMINAL(rate, payments) NORMDIST(number, mean, deviation, cumulative)
NORMINV(probability, mean, deviation) NORMSDIST(number, cumulative) NORMSINV(probability) NOT(condition)
NPER(rate, payment, present value, [future value], [type]) NPV(rate, amount, …) ODD(number) OR(condition, …) PEARSON(first cells, second cells)
PERCENTILE(cells, share) PI() PMT(rate, periods, present value, [future value], [type]) POWER(base, exponent) PRODUCT(number, …) PROPER(text)
PV(rate, periods, payment, [future value], [type]) QUARTILE(cells, quarter) QUOTIENT(number, divisor) RADIANS(angle) RANK(number, cells, [ascending])
RATE(periods, payment, present value, [future value], [type], [guess]) REPLACE(text, start, length, new text) REPT(text, times) RIGHT(text, [length])
ROMAN(number, [form]) ROUND(number, [places]) ROUNDDOWN(number, [places]) ROUNDUP(number, [places]) ROW([cell]) ROWS(cells) RSQ(known y, known x)
SECOND(time) SERIESSUM(x, first exponent, exponent step, coefficients) SIGN(number) SIN(angle) SINH(number) SKEW(value, …) SLN(cost, salvage, life)
SLOPE(known y, known x) SMALL(cells, which) SQRT(number) SQRTPI(number) STANDARDIZE(number, mean, deviation) STDEV(value, …) STDEVA(value, …)
STDEVP(value, …) STDEVPA(value, …) STEYX(known y, known x) SUBSTITUTE(text, old text, new text, [which]) SUM(number, …)
SUMIF(cells, criterion, [summed cells]) SUMIFS(summed cells, cells, criterion, …2) SUMPRODUCT(cells, …) SUMSQ(number, …)
SUMX2MY2(first cells, second cells) SUMX2PY2(first cells, second cells) SUMXMY2(first cells, second cells) SYD(cost, salvage, life, period) T(value)
TAN(angle) TANH(number) TIME(hours, minutes, seconds) TIMEVALUE(text) TRIM(text) TRUE() TRUNC(number, [places]) UPPER(text) VALUE(text) VAR(value, …)
VARA(value, …) VARP(value, …) VARPA(value, …) VLOOKUP(wanted, cells, column, [sorted]) WEEKDAY(date, [type]) WEEKNUM(date, [type])
WORKDAY(date, days, [holidays]) XIRR(amounts, dates, [guess]) XNPV(rate, amounts, dates) YEAR(date) YEARFRAC(first day, last day, [basis])
`;

function readSignature(name: string, written: string): Signature {
  const words = written.split(', ').filter(Boolean);
  const again = words.at(-1)?.startsWith('…') ? Number(words.pop()?.slice(1) || 1) : 0;
  return { name, takes: words.map((word) => ({ name: word.replace(/[[\]]/g, ''), optional: word.startsWith('[') })), again };
}

export const signatures = new Map<string, Signature>(
  [...STANDARD.matchAll(/([A-Z][A-Z0-9]*)\(([^()]*)\)/g)].map(([, name = '', written = '']) => [name, readSignature(name, written)]),
);
for (const record of functions) signatures.set(record.name, signatureIn(record));

/** What a function takes; undefined for one that is not offered. */
export const signatureOf = (name: string): Signature | undefined => signatures.get(name);

/** What an argument is called, by its place; undefined where there is no such place. */
export function argumentAt({ takes, again }: Signature, place: number): string | undefined {
  const over = place - takes.length;
  return (over < 0 || again === 0 ? takes[place] : takes[takes.length - again + (over % again)])?.name;
}
