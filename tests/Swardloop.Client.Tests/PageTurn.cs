using AngleSharp.Dom;
using Bunit;
using Microsoft.AspNetCore.Components;

namespace Swardloop.Client.Tests;

/// <summary>Acting on the page's turn: between finding an element and acting on it nothing is drawn again.</summary>
internal static class PageTurn
{
    /// <summary>Finds the first element of a selector and acts on it.</summary>
    public static Task OnAsync<T>(this IRenderedComponent<T> part, string selector, Func<IElement, Task> act)
        where T : IComponent => part.OnAsync(() => part.Find(selector), act);

    /// <summary>Finds an element and acts on it.</summary>
    public static Task OnAsync<T>(this IRenderedComponent<T> part, Func<IElement> find, Func<IElement, Task> act)
        where T : IComponent => part.InvokeAsync(() => act(find()));
}
