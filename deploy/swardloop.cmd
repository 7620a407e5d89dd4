@echo off
rem Starts the command line, or the server for its own commands. Needs no SDK: both bring their .NET along.
setlocal
set part=cli\swardloop.exe
for %%c in (serve backup restore forget screen people) do if /i "%~1"=="%%c" set part=server\swardloop-server.exe
if /i "%~1"=="export" echo " %* " | findstr /c:" --everything " >nul && set part=server\swardloop-server.exe
"%~dp0%part%" %*
