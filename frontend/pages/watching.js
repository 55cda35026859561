// What was asked for and what became of it, of a period: refusals, lost tools, declined quotations, discounts given.
import { useSignal } from '@preact/signals';
import { html } from '../html.js';
import { t } from '../state/language.js';
import { useReading } from '../state/reading.js';
import { TextField } from '../components/field/field.js';
import { Link } from '../components/link/link.js';
import { Notice } from '../components/notice/notice.js';
import { Declined, Discounts } from '../components/watching/outcomes.js';
import { LostTools } from '../components/watching/lost-tools.js';
import { Refusals } from '../components/watching/refusals.js';
import { AmissTable, StockAges } from '../components/watching/workshop.js';

const queryOf = (period) => new URLSearchParams(Object.entries(period).filter(([, value]) => value)).toString();

const Period = ({ read, onPeriod }) => {
  const write = (name) => (value) => value && onPeriod({ since: read.since, until: read.until, [name]: value });
  return html`<div class="watching__period"><${TextField} label=${t('books.since')} type="date" value=${read.since} onWrite=${write('since')} />
    <${TextField} label=${t('books.until')} type="date" value=${read.until} onWrite=${write('until')} /></div>`;
};

export const Watching = () => {
  const period = useSignal({});
  const { body, problem, again } = useReading(`/api/watching?${queryOf(period.value)}`);
  const read = body.value;
  const csv = (of) => `/api/watching.csv?of=${of}&since=${read.since}&until=${read.until}`;
  return html`<div class="work watching"><h1>${t('watching.title')}</h1><p class="quiet">${t('watching.lead')}</p>
    <p><${Link} to="/chasing">${t('watching.to-lapse')}<//> · <${Link} to="/approvals">${t('watch.approvals-all')}<//></p>
    ${read && html`<${Period} read=${{ ...read, ...period.value }} onPeriod=${(next) => (period.value = next)} />`}
    ${problem.value && html`<${Notice} problem=${problem.value} />`}
    ${read && html`<${Refusals} read=${read} csv=${csv} /><${LostTools} read=${read} onDone=${again} /><${Declined} read=${read} csv=${csv} /><${Discounts} read=${read} csv=${csv} /><${AmissTable} read=${read} csv=${csv} /><${StockAges} read=${read} csv=${csv} />`}</div>`;
};
