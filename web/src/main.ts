import { mount } from 'svelte';
import App from './App.svelte';
import './theme.css';

const place = document.getElementById('bench');
if (place) mount(App, { target: place });
