// Which revision has just gone out or been answered from this page, so that its sheet says so once and what comes next.
import { signal } from '@preact/signals';

const justIssued = signal(null);

export const announceIssued = (number, letter) => (justIssued.value = `${number} ${letter}`);

/** Whether that revision is the one; said once. */
export const wasJustIssued = (number, letter) => justIssued.peek() === `${number} ${letter}`;

export const forgetIssued = () => (justIssued.value = null);
