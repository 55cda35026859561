// Binds the template tag to Preact once, so that no other module needs to know both.
import { h } from 'preact';
import htm from 'htm';

export const html = htm.bind(h);
