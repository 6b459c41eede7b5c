import { json } from '@sveltejs/kit';
import library from 'virtual:library';

export const prerender = true;

/** Suspects, steps, flows and plans as one file: data for the job page, no code, kept offline like a page. */
export const GET = () => json(library);
