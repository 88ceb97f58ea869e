@echo off
rem Starts the Boothward agent, and starts it again whenever it ends by itself.
rem
rem Put this file beside agent.mjs and agent.yaml, with node.exe in the same folder or installed.
rem Double-click it, or put a shortcut to it into the Startup folder (Win+R, shell:startup).
rem Another settings file may be given as the first argument.
setlocal
cd /d "%~dp0"
title Boothward agent
set "CONFIG=%~1"
if not defined CONFIG set "CONFIG=agent.yaml"
set "NODE=node"
if exist "%~dp0node.exe" set "NODE=%~dp0node.exe"

:start
"%NODE%" --enable-source-maps agent.mjs run --config "%CONFIG%"
rem It was stopped on purpose: Ctrl-C, or the end of the session.
if %ERRORLEVEL% equ 0 exit /b 0
echo The agent ended with code %ERRORLEVEL% at %TIME%. It starts again in 5 seconds; close this window to stop it.
rem "timeout" does not wait where there is no keyboard, as in a scheduled task.
ping -n 6 127.0.0.1 >nul
goto start
