Console.WriteLine("hello, world");
