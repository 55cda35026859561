// The shell, side and plan, as the server lays it out: SVG elements made here, one group per element of the drawing, and
// the same as a list. Its room is kept from the start, so that nothing moves when it comes.
import { useEffect, useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import { html } from '../../html.js';
import { t } from '../../state/language.js';
import { book } from '../../state/book.js';
import { useArrangement, useDrawing } from '../../state/drawing.js';
import { goToOption } from '../option-row/option-row.js';

const Path = ({ path }) => html`<path d=${path.d} stroke-width=${path.width} stroke-dasharray=${path.dash.join(' ') || null}
  fill=${path.fill ? 'currentColor' : null} vector-effect="non-scaling-stroke" />`;

const Letters = ({ letters }) => html`<text x=${letters.x} y=${letters.y} font-size=${letters.size}
  font-weight=${letters.bold ? 700 : null}>${letters.text}</text>`;

/** A pointer has more to aim at than a thin line. */
const Reach = ({ paths }) => html`<path class="shell-drawing__reach" d=${paths.map(({ d }) => d).join('')} vector-effect="non-scaling-stroke" />`;

const Part = ({ part, onPick }) => html`<g data-element=${part.element} data-state=${part.state}
  class=${onPick && part.option ? 'is-link' : null} onClick=${onPick && part.option ? () => onPick(part.option) : null}>
  ${part.words && html`<title>${part.words}</title>`}
  ${part.paths.map((path, at) => html`<${Path} key=${at} path=${path} />`)}
  ${part.letters.map((letters, at) => html`<${Letters} key=${at} letters=${letters} />`)}
  ${onPick && part.option && html`<${Reach} paths=${part.paths} />`}
</g>`;

/** A drawing as the server lays it out. */
export const Sheet = ({ drawing, name, onPick = null }) => html`<svg viewBox=${`0 0 ${drawing.width} ${drawing.height}`} role="img"
  aria-labelledby=${`${name}-title`} fill="none" stroke="currentColor" stroke-linejoin="round">
  <title id=${`${name}-title`}>${drawing.title}</title>
  <desc>${drawing.lines.join('; ')}</desc>
  ${drawing.parts.map((part) => html`<${Part} key=${part.option ?? part.element} part=${part} onPick=${onPick} />`)}
</svg>`;

const Lines = ({ lines }) => html`<ul class="unseen shell-drawing__lines" aria-label=${t('drawing.list')}>
  ${lines.map((line) => html`<li key=${line}>${line}</li>`)}</ul>`;

/** `question` as for useDrawing; `onPick(option)` where a feature leads to its option. */
const Frame = ({ question, arrangement, name, onPick }) => {
  const drawing = useDrawing(question, arrangement);
  return html`<figure>
    <div class=${`shell-drawing__sheet shell-drawing__sheet--${arrangement}`}>
      ${drawing && html`<${Sheet} drawing=${drawing} name=${name} onPick=${onPick} />`}
    </div>
    <figcaption class="quiet">${t('drawing.key')}</figcaption>
    ${drawing && html`<${Lines} lines=${drawing.lines} />`}
  </figure>`;
};

/** Open on a desk, folded away on a phone until it is asked for. */
export const ShellDrawing = ({ question, name = 'shell-drawing', onPick = null }) => {
  const arrangement = useArrangement();
  const open = useSignal(arrangement === 'abreast');
  useEffect(() => {
    open.value = arrangement === 'abreast';
  }, [arrangement]);
  if (!book.value.draws) return null;
  return html`<details class="shell-drawing" open=${open.value} onToggle=${(event) => (open.value = event.currentTarget.open)}>
    <summary>${t('drawing.title')}</summary>
    <${Frame} question=${open.value ? question : null} arrangement=${arrangement} name=${name} onPick=${onPick} />
  </details>`;
};

const drawnPart = ({ specification, donor }) => JSON.stringify({ specification, donor });

/** The drawing of the line in sight. It is asked for once the answer is there, so that no answer waits for it. */
export const JobDrawing = ({ job }) => {
  const answered = useRef(null);
  if (job.fresh.value) answered.current = drawnPart(JSON.parse(job.question.value));
  return html`<${ShellDrawing} question=${answered.current} onPick=${goToOption} />`;
};
