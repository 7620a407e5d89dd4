namespace Swardloop.Cli;

/// <summary>What a shell needs to complete a call: made from the list of commands, so that it cannot lag behind it.</summary>
internal static class Completion
{
    /// <summary>A script for bash: <c>source &lt;(swardloop completion bash)</c>. The first word is a command, every other a file.</summary>
    public static string Bash() => $$"""
        # bash completion for swardloop; made by: swardloop completion bash
        _swardloop() {
            if ((COMP_CWORD == 1)); then
                COMPREPLY=($(compgen -W "{{string.Join(' ', CommandList.Names)}} completion --help --version" -- "${COMP_WORDS[COMP_CWORD]}"))
            elif [[ ${COMP_WORDS[COMP_CWORD]} == -* ]]; then
                COMPREPLY=($(compgen -W "--help --json" -- "${COMP_WORDS[COMP_CWORD]}"))
            else
                COMPREPLY=($(compgen -f -- "${COMP_WORDS[COMP_CWORD]}"))
            fi
        }
        complete -o filenames -F _swardloop swardloop ./swardloop

        """.ReplaceLineEndings("\n");
}
