import type { Plugin } from 'vite';

export function kernelsPlugin(): Plugin;
